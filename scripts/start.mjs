/**
 * `npm start`: installs and builds what is missing, then serves. The server runs in this very process, so that its
 * output and every signal are its own.
 */
import { requireNode } from './node-version.mjs';

requireNode();
start();

async function start() {
  const { Stop } = await import('./run.mjs');
  try {
    const { ensureInstalled } = await import('./install.mjs');
    const { ensureBuilt } = await import('./build.mjs');
    ensureInstalled();
    ensureBuilt();
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    console.error(error.message);
    process.exit(2);
  }
  await import('../dist/serve/main.js');
}
