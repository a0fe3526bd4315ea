/** Finds a Chromium for the tests that look at the program through a browser, or installs Debian's where that needs no password. */
import { existsSync } from 'node:fs';
import { ask, installDebian, onPath } from './run.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const ELSEWHERE = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
];

/** Path of a browser that starts, or null. CHROMIUM names one and is then the only one tried. */
export function findChromium() {
  const named = process.env.CHROMIUM;
  if (named) return works(named) ? named : null;
  const found = onPath(NAMES) ?? ELSEWHERE.find((path) => existsSync(path)) ?? null;
  if (found && works(found)) return found;
  // Ubuntu's package of this name is a stub that wants snap; then it does not start, and we are where we were.
  if (process.platform !== 'linux' || !installDebian(['chromium'], { sudo: true })) return null;
  const installed = onPath(NAMES);
  return installed && works(installed) ? installed : null;
}

function works(path) {
  // On Windows "--version" opens a window instead of answering.
  return (
    existsSync(path) &&
    (process.platform === 'win32' || ask(path, ['--version'], { timeout: 30_000 }) !== null)
  );
}
