/** Finds the program that writes a browser's list of trusted authorities, or installs Debian's where that needs no password. */
import { existsSync } from 'node:fs';
import { installDebian, onPath } from './run.mjs';

/** Path of certutil, or null. CERTUTIL names one and is then the only one tried. */
export function findCertutil() {
  const named = process.env.CERTUTIL;
  if (named) return existsSync(named) ? named : null;
  const find = () => onPath(['certutil']);
  // On Windows another program has this name.
  if (process.platform !== 'linux') return null;
  return find() ?? (installDebian(['libnss3-tools'], { sudo: true }) ? find() : null);
}
