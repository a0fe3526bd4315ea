/** Runs Vitest and reads its report: what passed, what failed and with which words, what was not run. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, sep } from 'node:path';
import { ROOT } from './run.mjs';

/** @param {{ browser: string | null, certutil: string | null, postgres: string | null, args: string[] }} how */
export function runSuites({ browser, certutil, postgres, args }) {
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-report-'));
  const file = join(folder, 'report.json');
  try {
    const vitest = join(ROOT, 'node_modules', 'vitest', 'vitest.mjs');
    const { status } = spawnSync(
      process.execPath,
      [vitest, 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`, ...args],
      {
        cwd: ROOT,
        stdio: 'inherit',
        env: {
          ...process.env,
          CHROMIUM: browser ?? '',
          TEST_POSTGRES: postgres ?? '',
          CERTUTIL: certutil ?? '',
        },
      },
    );
    const report = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : { testResults: [] };
    return countReport(report, status);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Counts a JSON report of Vitest. A run that did not end well without a failed test counts as one failure. */
export function countReport(report, status) {
  const suites = new Map();
  const failures = [];
  const skipped = [];
  let passed = 0;
  for (const { name, status: fileStatus, message, assertionResults } of report.testResults) {
    const path = relative(ROOT, name).split(sep).join('/');
    const suite = path.split('/')[1] ?? path;
    const row = suites.get(suite) ?? { passed: 0, failed: 0, skipped: 0 };
    suites.set(suite, row);
    for (const test of assertionResults) {
      const title = `${path} > ${test.fullName}`;
      if (test.status === 'passed') {
        row.passed += 1;
        passed += 1;
      } else if (test.status === 'failed') {
        row.failed += 1;
        failures.push(`${title}\n      ${firstLines(test.failureMessages.join('\n'))}`);
      } else {
        row.skipped += 1;
        skipped.push(title);
      }
    }
    // A file that cannot be loaded, or whose hooks throw, has no failed test of its own.
    if (fileStatus === 'failed' && !assertionResults.some((test) => test.status === 'failed')) {
      row.failed += 1;
      failures.push(`${path}\n      ${firstLines(message)}`);
    }
  }
  if (report.testResults.length === 0) failures.push('Vitest: no test was run');
  else if (status !== 0 && failures.length === 0)
    failures.push(`Vitest: ended with ${status ?? 'a signal'}, see above`);
  const table = ['', ...[...suites].sort().map(([suite, row]) => tableLine(suite, row))];
  return { passed, failed: failures.length, failures, skipped, table };
}

function tableLine(suite, { passed, failed, skipped }) {
  const rest = skipped > 0 ? `  ${String(skipped).padStart(4)} not run` : '';
  return `${suite.padEnd(12)} ${String(passed).padStart(5)} passed  ${String(failed).padStart(4)} failed${rest}`;
}

function firstLines(text) {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  return lines.slice(0, 3).join('\n      ');
}
