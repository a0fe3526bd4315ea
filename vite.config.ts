import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, constants } from 'node:zlib';
import { defineConfig, type Plugin, type Rolldown } from 'vite';

const PUBLIC = fileURLToPath(new URL('./src/web/public', import.meta.url));

/**
 * Writes into the service worker which files make up this build, and a name for it that changes with any of them: a
 * browser takes a new worker when its text differs by a byte.
 */
function listForWorker(): Plugin {
  return {
    name: 'list-for-worker',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const worker = Object.values(bundle).find((file) => file.fileName === 'sw.js');
      if (worker?.type !== 'chunk') throw new Error('the build has no service worker');
      const hash = createHash('sha256');
      const files = Object.values(bundle)
        // Every browser with a service worker reads woff2.
        .filter((file) => file !== worker && !/\.(?:map|woff)$/.test(file.fileName))
        .sort((a, b) => (a.fileName < b.fileName ? -1 : 1));
      for (const file of files)
        hash.update(file.fileName).update(file.type === 'chunk' ? file.code : file.source);
      const names = files.map(({ fileName }) => (fileName === 'index.html' ? '/' : `/${fileName}`));
      const list = JSON.stringify([...names, ...readdirSync(PUBLIC).map((name) => `/${name}`)]);
      const before = worker.code;
      worker.code = before
        .replace(/(["'`])__BUILD__\1/, JSON.stringify(hash.digest('hex').slice(0, 12)))
        .replace(/(["'`])__FILES__\1/, JSON.stringify(list));
      if (/__(?:BUILD|FILES)__/.test(worker.code)) throw new Error('the service worker was not filled in');
    },
  };
}

/** Packs what the server hands out once more, as tight as it goes: that takes too long while a browser waits. */
function packTight(): Plugin {
  return {
    name: 'pack-tight',
    apply: 'build',
    writeBundle({ dir }, bundle) {
      // The page and the service worker keep their names from build to build, and are small.
      for (const name of Object.keys(bundle).filter((one) => /^assets\/.*\.(?:js|css)$/.test(one))) {
        const path = join(dir ?? '', name);
        const params = { [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY };
        writeFileSync(`${path}.br`, brotliCompressSync(readFileSync(path), { params }));
      }
    },
  };
}

/** Makes `src/sum/heads.ts` its own value, from the compiled sums: what reckons them stays out of the page. */
function headsOnly(): Plugin {
  const heads = fileURLToPath(new URL('./src/sum/heads.ts', import.meta.url));
  return {
    name: 'heads-only',
    enforce: 'pre',
    async load(id) {
      if (id !== heads) return null;
      const { SUM_HEADS } = await import(new URL('./dist/sum/heads.js', import.meta.url).href);
      return `export const SUM_HEADS = ${JSON.stringify(SUM_HEADS)};`;
    },
  };
}

const inWeb = (name: string): string => fileURLToPath(new URL(`./src/web/${name}`, import.meta.url));

/** All that a module needs before it runs, itself among it. */
function needsOf(id: string, graph: Rolldown.ChunkingContext): Set<string> {
  const needs = new Set([id]);
  for (const known of needs)
    for (const next of graph.getModuleInfo(known)?.importedIds ?? []) needs.add(next);
  return needs;
}

/** Pages of a job, by the files that are fetched for them; the clocks stand on each of them. */
const CLOCKS = 'parts/bench-clocks.tsx';
// Of the stations whose first words come before the rest, what needs the code: the rest.
const READING = ['parts/readings-work.tsx', 'stations/verdict.tsx', 'stations/proof.tsx'];
const BENCH = 'stations/bench.tsx';
const PROOF = 'stations/proof.tsx';
const PAPER = 'parts/job-paper.tsx';
/** What the papers share with a page that needs nothing else of them. */
const APART = [
  ...['bench/deviations.ts', 'circuit/closed-form.ts', 'circuit/pulses.ts', 'circuit/stepper.ts'],
  ...['paper/reminders.ts', 'paper/deviation-reminders.ts', 'paper/job-bench.ts', 'verdict/symptom-words.ts'],
];
/** What draws the volts of a proof, for the papers and for two folds. */
const VOLTS = [
  'machine/sheet-differs',
  'draw/proved-volts',
  'draw/curves',
  'draw/curve-marks',
  'circuit/sound',
  'way/plan-words',
];
const PHOTOS = ['state/photos.ts'];
/** These need little of what the others share. */
const HANDOVER = 'stations/handover.tsx';
const SUMS = 'stations/sums.tsx';
const MACHINE = 'stations/machine.tsx';
/** A page of the machine file that needs two small things of the readings' code: it must not fetch all of that for them. */
const STRIP = 'parts/strip-editor.tsx';
/** These need little of what the pages of a machine file need. */
const BESIDE = ['machines', 'begin'].map((name) => `stations/${name}.tsx`);
const PAGES = [
  ...[...READING, BENCH, ...['complaint', 'odds'].map((name) => `stations/${name}.tsx`)],
  'parts/way-work.tsx',
];

/**
 * Names the files that several pages need. One file each rather than thirty small ones: on a slow line a file costs a way to
 * the laptop and back, however small it is. What is not named here is cut by the bundler.
 */
function sharedFiles(): (id: string, graph: Rolldown.ChunkingContext) => string | null {
  let needs: ReadonlyMap<string, ReadonlySet<string>> | null = null;
  return (id, graph) => {
    needs ??= new Map(
      [
        'boot.ts',
        'main.tsx',
        CLOCKS,
        PAPER,
        ...PHOTOS,
        HANDOVER,
        SUMS,
        MACHINE,
        STRIP,
        ...BESIDE,
        ...PAGES,
      ].map((name) => [name, needsOf(inWeb(name), graph)]),
    );
    const does = (name: string): boolean => needs?.get(name)?.has(id) ?? false;
    if (does('boot.ts') || /rolldown.runtime|preload-helper/.test(id)) return 'boot';
    if (does('main.tsx')) return 'main';
    const users = PAGES.filter(does);
    // Small, and nearly every page needs them.
    if ((does(HANDOVER) || does(SUMS)) && (users.length > 0 || does(CLOCKS))) return 'main';
    if (does(CLOCKS)) return id === inWeb(CLOCKS) ? null : 'job';
    if (users.length >= 2) {
      if (users.every((name) => READING.includes(name))) return does(STRIP) ? 'job' : 'reading';
      // What asks for a verdict starts a worker when it comes: only for a page that does.
      return id === inWeb('think.ts') || needsOf(id, graph).has(inWeb('state/verdict.ts'))
        ? 'thinking'
        : 'job';
    }
    if (users.length === 0 && does(MACHINE) && !BESIDE.some(does))
      return id === inWeb(MACHINE) ? null : 'file';
    if (PHOTOS.some(does)) return 'photos';
    if (VOLTS.some((name) => id.endsWith(`/${name}.ts`))) return 'volts';
    if (users.length === 0 && does(PAPER) && !APART.some((name) => id.endsWith(`/${name}`)))
      return id === inWeb(PAPER) ? null : 'paper';
    if (users[0] === PROOF && id !== inWeb(PROOF)) return 'proving';
    return users[0] === BENCH && id !== inWeb(BENCH) ? 'work' : null;
  };
}

/** Tells the browser of what follows the first file while that is on its way. */
function tellOfMain(): Plugin {
  return {
    name: 'tell-of-main',
    transformIndexHtml: {
      order: 'post',
      handler: (html, { bundle }) => {
        if (!bundle) return [];
        const names = Object.keys(bundle).filter((name) => /^assets\/(?:main|rolldown-runtime)-/.test(name));
        const next = names.filter((name) => name.endsWith('.js') && !html.includes(name));
        if (!next.some((name) => name.includes('main'))) throw new Error('the build has no file main');
        return next.map((name) => ({
          tag: 'link',
          attrs: { rel: 'modulepreload', crossorigin: true, href: `/${name}` },
          injectTo: 'head' as const,
        }));
      },
    },
  };
}

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
    rollupOptions: {
      input: {
        index: fileURLToPath(new URL('./src/web/index.html', import.meta.url)),
        sw: fileURLToPath(new URL('./src/web/service-worker.ts', import.meta.url)),
      },
      output: {
        // A service worker is known by its address, so that one keeps its name.
        entryFileNames: ({ name }) => (name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js'),
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [{ name: sharedFiles() }],
        },
      },
    },
  },
  plugins: [headsOnly(), tellOfMain(), listForWorker(), packTight()],
  worker: { format: 'es' },
});
