import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { fits } from '../../scripts/node-version.mjs';
import { countReport } from '../../scripts/suites.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const file = (name: string, status: string, tests: readonly [string, string][], message = '') => ({
  name: `${root}test/${name}`,
  status,
  message,
  assertionResults: tests.map(([fullName, outcome]) => ({
    fullName,
    status: outcome,
    failureMessages: outcome === 'failed' ? ['expected 1 to be 2\n    at somewhere'] : [],
  })),
});

describe('counting a test run', () => {
  it('counts passed, failed and not run, by suite', () => {
    const report = {
      testResults: [
        file('job/a.test.ts', 'failed', [
          ['one', 'passed'],
          ['two', 'failed'],
          ['three', 'skipped'],
        ]),
        file('log/b.test.ts', 'passed', [
          ['four', 'passed'],
          ['five', 'todo'],
        ]),
      ],
    };
    const counted = countReport(report, 1);
    expect(counted).toMatchObject({
      passed: 2,
      failed: 1,
      skipped: ['test/job/a.test.ts > three', 'test/log/b.test.ts > five'],
    });
    expect(counted.failures[0]).toMatch(/^test\/job\/a\.test\.ts > two\n\s+expected 1 to be 2/);
    expect(counted.table.join('\n')).toMatch(
      /job +1 passed +1 failed +1 not run\nlog +1 passed +0 failed +1 not run/,
    );
  });

  it('counts a file that cannot be loaded as a failure', () => {
    expect(
      countReport({ testResults: [file('job/a.test.ts', 'failed', [], 'Cannot find module')] }, 1),
    ).toMatchObject({
      passed: 0,
      failed: 1,
      failures: [expect.stringContaining('Cannot find module')],
    });
  });

  it('counts a run that broke down, or ran nothing, as a failure', () => {
    expect(
      countReport({ testResults: [file('job/a.test.ts', 'passed', [['one', 'passed']])] }, 1),
    ).toMatchObject({ passed: 1, failed: 1 });
    expect(
      countReport({ testResults: [file('job/a.test.ts', 'passed', [['one', 'passed']])] }, null),
    ).toMatchObject({ failed: 1 });
    expect(countReport({ testResults: [] }, 0)).toMatchObject({ passed: 0, failed: 1 });
  });
});

describe('the version of node', () => {
  it('is checked against the range that package.json states', () => {
    const { engines } = JSON.parse(readFileSync(`${root}package.json`, 'utf8'));
    expect(engines.node).toBe('>=20.19 <21 || >=22.12');
    const versions = ['18.20.4', '20.18.3', '20.19.0', '20.20.2', '21.7.3', '22.11.0', '22.12.0', '24.0.0'];
    expect(versions.filter(fits)).toEqual(['20.19.0', '20.20.2', '22.12.0', '24.0.0']);
  });
});
