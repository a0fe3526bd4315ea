/**
 * Runs a built program of this project, installing and building first where that is needed:
 * `node scripts/prepared.mjs dist/cli/lines-main.js [arguments]`. Standard output belongs to the program alone.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { requireNode } from './node-version.mjs';

requireNode();
prepare();

async function prepare() {
  const { ROOT, Stop, toStderr } = await import('./run.mjs');
  toStderr();
  const [, , program = '', ...rest] = process.argv;
  try {
    const { ensureInstalled } = await import('./install.mjs');
    const { ensureBuilt } = await import('./build.mjs');
    ensureInstalled();
    ensureBuilt();
    if (!existsSync(join(ROOT, program)))
      throw new Stop(`There is no built program ${program}; name one under dist/.`);
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    console.error(error.message);
    process.exit(2);
  }
  process.argv = [process.argv[0], join(ROOT, program), ...rest];
  await import(pathToFileURL(join(ROOT, program)).href);
}
