/** Finds ffmpeg for the tests that carry chapters through it, or installs Debian's where that needs no password. */
import { ask, installDebian, onPath } from './run.mjs';

/** Path of a program that starts, or null. */
export function findFfmpeg() {
  const find = () => {
    const found = onPath(['ffmpeg', 'ffmpeg.exe']);
    return found && ask(found, ['-version'], { timeout: 30_000 }) !== null ? found : null;
  };
  return (
    find() ?? (process.platform === 'linux' && installDebian(['ffmpeg'], { sudo: true }) ? find() : null)
  );
}
