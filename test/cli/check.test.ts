import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { build, ROOT, run, runProcess } from './run.ts';

const MACHINE = readFileSync(join(ROOT, 'machines/ardmoor-650-pathway.json'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'check-'));

function spoilt(name: string, old: string, fresh: string): string {
  expect(MACHINE).toContain(old);
  writeFileSync(join(folder, name), MACHINE.replace(old, fresh));
  return join(folder, name);
}

beforeAll(build);

describe('check for blunders', () => {
  it('an impossible one is told on standard output, with its line, and the exit code is 2', async () => {
    const file = spoilt('feet.json', '30–40 lbf·in', '30–40 lbf·ft');
    const { code, out, err } = await runProcess(['check', file]);
    expect([code, err]).toEqual([2, '']);
    const line = readFileSync(file, 'utf8').split('30–40 lbf·ft')[0]!.split('\n').length;
    expect(out).toMatch(/feet\.json: it can be read, but look at these\.\n {2}Impossible .*, \d:\n/);
    expect(out).toContain(`line ${line}, $.fasteners["stator-screws"].torque.is: `);
    expect(out).toMatch(/lbf·in .*may be meant/);
  });

  it('a danger or a doubt is told, and the exit code stays 0', async () => {
    const file = spoilt('long.json', '"is": "1 1/4 in"', '"is": "1 3/4 in"');
    const { code, out } = await run(['check', file]);
    expect(code).toBe(0);
    expect(out).toMatch(/Danger .*, 1:\n.*cover-screws.*bottoms/);
  });

  it('a problem of shape comes first, and a blunder beside it is told as well', async () => {
    writeFileSync(
      join(folder, 'both.json'),
      MACHINE.replace('"40 A"', '"40"').replace('"1 1/4 in"', '"1 3/4 in"'),
    );
    const { code, out, err } = await run(['check', join(folder, 'both.json')]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(
      /^.*\$\.charging\.fuse\.is: .*no unit.*\n.*danger, line \d+, .*cover-screws.*bottoms/,
    );
  });

  it('--json holds the findings with their places', async () => {
    const file = spoilt('json.json', '"count": 10', '"count": 9');
    const { out } = await run(['check', file, '--json']);
    const { mark, findings } = JSON.parse(out) as {
      mark: string;
      findings: { path: string; line: number }[];
    };
    expect(mark).toBe('doubt');
    expect(findings[0]).toMatchObject({ path: '$.fasteners["cover-screws"].positions', topic: 'count' });
    expect(findings[0]!.line).toBeGreaterThan(100);
  });
});
