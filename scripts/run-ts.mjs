/**
 * Runs one TypeScript script of this project: `node scripts/run-ts.mjs path/to/script.ts [arguments]`.
 * Vite bundles it with its rooms, so that it runs as plain JavaScript; packages stay outside; node imports the bundle.
 */
import { existsSync, rmSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { ROOT } from './run.mjs';

const [, , script, ...rest] = process.argv;
if (!script || !existsSync(resolve(ROOT, script))) {
  console.error(
    `run-ts: ${script ? `there is no ${script}` : 'name a script'}, e.g. node scripts/run-ts.mjs test/speed/circuit-bench.ts`,
  );
  process.exit(2);
}
const outDir = join(ROOT, 'dist', 'run', `${basename(script, '.ts')}-${process.pid}`);
process.on('exit', () => rmSync(outDir, { recursive: true, force: true }));
await build({
  root: ROOT,
  configFile: false,
  logLevel: 'error',
  publicDir: false,
  build: { ssr: resolve(ROOT, script), outDir, minify: false, target: 'node20' },
});
const built = join(outDir, `${basename(script, '.ts')}.js`);
process.argv = [process.argv[0], built, ...rest];
await import(pathToFileURL(built).href);
