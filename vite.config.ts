import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

/**
 * The app is built from the room `web` into `dist/app`, from where the server hands it out under a strict content
 * policy: nothing is inlined, so `self` is enough for scripts, styles, fonts and the worker.
 */
export default defineConfig({
  root: fileURLToPath(new URL('./src/web', import.meta.url)),
  base: '/',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: fileURLToPath(new URL('./dist/app', import.meta.url)),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    sourcemap: true,
  },
  worker: { format: 'es' },
});
