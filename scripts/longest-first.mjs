/** The order of the test files: the longest first, so that at the end no worker is left alone with one of them. */
import { relative } from 'node:path';
import { BaseSequencer } from 'vitest/node';
import { ROOT } from './run.mjs';

/** Files that take more than half a minute on two cores, the longest first. */
const LONG = ['bench', 'look', 'proof', 'offline', 'job', 'verdict', 'machine', 'bench-look', 'strip'].map(
  (name) => `test/e2e/${name}.test.ts`,
);

export class LongestFirst extends BaseSequencer {
  /** Those of one project stay together: only so do its files share a worker that keeps what it has loaded. */
  async sort(files) {
    const place = ({ project, moduleId }) => {
      const path = relative(ROOT, moduleId).replaceAll('\\', '/');
      const long = LONG.indexOf(path);
      const kind = long >= 0 ? 0 : path.startsWith('test/e2e/') ? 1 : project.config.isolate ? 2 : 3;
      return [kind, long, path];
    };
    return files
      .map((file) => ({ file, at: place(file) }))
      .sort(({ at: a }, { at: b }) => a[0] - b[0] || a[1] - b[1] || (a[2] < b[2] ? -1 : 1))
      .map(({ file }) => file);
  }
}
