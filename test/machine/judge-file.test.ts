import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkMachine } from '../../src/machine/blunder.ts';
import { LEVELS, writeFinding } from '../../src/machine/finding.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { ARDMOOR, lineOf, swap } from './spoil.ts';

describe('judging a file', () => {
  it('marks the shipped machines clean', () => {
    for (const name of ['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon']) {
      const text = readFileSync(new URL(`../../machines/${name}.json`, import.meta.url), 'utf8');
      expect([name, judgeFile(text, name, 2026).mark]).toEqual([name, 'clean']);
    }
  });

  it('names the line, the figures and what to look up, and corrects nothing', () => {
    const text = ARDMOOR.replace('30–40 lbf·in', '30–40 lbf·ft');
    const { mark, findings, machine } = judgeFile(text, 'ardmoor.json', 2026);
    expect(mark).toBe('impossible');
    const [first] = findings;
    expect(first).toMatchObject({
      level: 'impossible',
      topic: 'torque',
      path: '$.fasteners["stator-screws"].torque.is',
      line: lineOf(text, '30–40 lbf·ft'),
    });
    expect(writeFinding(first!)).toMatch(/^line \d+, .*54\.2 N·m.*% of .*Look up .*lbf·in .*may be meant\.$/);
    expect(machine?.fasteners?.['stator-screws']?.torque?.is.text).toBe('30–40 lbf·ft');
  });

  it('goes on past what cannot be read: a spoilt circuit does not hide a blunder in a screw', () => {
    const spoilt = swap(ARDMOOR, '"is": "40 A", "from": "labels"', '"is": "40", "from": "labels"');
    const text = spoilt.replace('30–40 lbf·in', '30–40 lbf·ft').replace('"#10-24"', '7');
    const { mark, problems, findings } = judgeFile(text, 'ardmoor.json', 2026);
    expect(mark).toBe('broken');
    expect(problems.map(({ path }) => path)).toEqual([
      '$.charging.fuse.is',
      '$.fasteners["plug-retainer-screw"].thread.is',
    ]);
    expect(findings.map(({ path }) => path)).toContain('$.fasteners["stator-screws"].torque.is');
    // The screw that could not be read is not said to be missing.
    expect(findings.filter(({ topic }) => topic === 'parts')).toEqual([]);
  });

  it('shows contradictions as impossible', () => {
    const text = swap(ARDMOOR, '"14.1–14.9 V"', '"15.1–16.1 V"');
    const { mark, findings } = judgeFile(text, 'ardmoor.json', 2026);
    expect(mark).toBe('impossible');
    expect(findings[0]).toMatchObject({ topic: 'contradiction', path: '$.charging.regulator.chargeVolts' });
  });

  it('lists the worst first and, within a level, in the order of the file', () => {
    const text = ARDMOOR.replaceAll('lbf·in', 'lbf·ft').replace('"count": 10', '"count": 9');
    const { findings } = judgeFile(text, 'ardmoor.json', 2026);
    const ranks = findings.map(({ level, line }) => LEVELS.indexOf(level) * 1e6 + line);
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    expect(new Set(findings.map(({ level }) => level)).size).toBeGreaterThan(1);
  });

  it('says nothing of years without a clock', () => {
    const text = ARDMOOR.replace('"year": 1991', '"year": 2090');
    expect(judgeFile(text, 'a.json').mark).toBe('clean');
    expect(judgeFile(text, 'a.json', 2026).mark).toBe('doubt');
  });

  it('never throws when any piece of the file is lost, and no sentence holds a figure that is none', () => {
    for (let at = 0; at < ARDMOOR.length; at += 101) {
      const text = ARDMOOR.slice(0, at) + ARDMOOR.slice(at + 5);
      for (const one of judgeFile(text, 'a.json', 2026).findings)
        expect(writeFinding({ ...one })).not.toMatch(/NaN|Infinity|undefined|null/);
    }
  });

  it('is quick enough for every keystroke: under 20 ms a machine', () => {
    const read = readMachine(ARDMOOR, 'a.json');
    if (!read.ok) throw new Error('the shipped machine was refused');
    for (let n = 0; n < 20; n++) checkMachine(read.machine, 2026);
    const times = Array.from({ length: 21 }, () => {
      const start = performance.now();
      checkMachine(read.machine, 2026);
      return performance.now() - start;
    }).sort((a, b) => a - b);
    expect(times[10]).toBeLessThan(20);
  });
});
