/**
 * Says so in one sentence when this node is too old to go on. Written in the syntax of old nodes on purpose: it is
 * loaded before anything that they could not even read. The range is that of "engines" in package.json.
 */

/** @param {string} version as in process.versions.node */
export function fits(version) {
  const parts = version.split('.').map(Number);
  const major = parts[0];
  const minor = parts[1];
  return (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22;
}

export function requireNode() {
  if (fits(process.versions.node)) return;
  console.error(
    'Chargewright needs node 20 (20.19 or later) or node 22.12 and later, but this is node ' +
      process.versions.node +
      '. Install one of them, then try again.',
  );
  process.exit(2);
}
