/**
 * Asks the registry that npm is set to whether the packages the program runs on have known faults. High or critical ones
 * fail; where nobody answers it is not run, and that is said: `node scripts/audit.mjs`.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ROOT } from './run.mjs';

/** How long all of it may take, ms. */
const PATIENCE_MS = 40_000;
const GRAVE = ['high', 'critical'];

/**
 * What an answer of `npm audit --json` means.
 * @returns {{ ran: true, grave: string[], known: number } | { ran: false, why: string }}
 */
export function readAudit(text) {
  let answer;
  try {
    answer = JSON.parse(text);
  } catch {
    return { ran: false, why: 'npm gave no answer' };
  }
  // An answer without this list is the registry's refusal, or the network's.
  if (typeof answer?.vulnerabilities !== 'object' || answer.vulnerabilities === null) {
    const { statusCode, error, message } = answer ?? {};
    const said = statusCode
      ? `it answered ${statusCode}`
      : (error?.code ?? error?.summary ?? message ?? 'no reason');
    return { ran: false, why: `the registry could not be asked (${String(said).split('\n')[0]})` };
  }
  const known = Object.values(answer.vulnerabilities);
  const grave = known
    .filter(({ severity }) => GRAVE.includes(severity))
    .map(({ name, severity, range, via }) => {
      const title = via?.find((one) => typeof one === 'object')?.title;
      return `${name} ${range} (${severity})${title ? `: ${title}` : ''}`;
    });
  return { ran: true, grave, known: known.length };
}

/** Asks; `npm` says how to start it. Never throws. */
export function audit(npm = npmHere()) {
  const { stdout } = spawnSync(
    npm[0],
    [...npm.slice(1), 'audit', '--omit=dev', '--json', '--fetch-retries=0', '--fetch-timeout=15000'],
    { cwd: ROOT, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], timeout: PATIENCE_MS },
  );
  return readAudit(stdout ?? '');
}

/** Inside "npm test" npm says where it lies. */
function npmHere() {
  const npm = process.env.npm_execpath;
  return npm?.endsWith('.js') ? [process.execPath, npm] : ['npm'];
}

/** The lines that tell it. */
export function tellAudit(found) {
  if (!found.ran) return [`Not run: the look for known faults in packages; ${found.why}.`];
  if (found.grave.length === 0)
    return [
      found.known === 0
        ? 'No fault is known in the packages that the program runs on.'
        : `${found.known === 1 ? '1 fault is' : `${found.known} faults are`} known in the packages that the program runs on, none of them grave.`,
    ];
  return found.grave;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const found = audit();
  for (const line of tellAudit(found)) console.log(line);
  process.exitCode = found.ran && found.grave.length > 0 ? 1 : 0;
}
