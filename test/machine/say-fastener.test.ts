/** A fastener's figures at the step that turns it: both units, the sheet of the new part before the book, the left-hand thread. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readMachine } from '../../src/machine/read-machine.ts';
import { sayFastener } from '../../src/machine/say-fastener.ts';

const read = readMachine(readFileSync('machines/ardmoor-650-pathway.json', 'utf8'), 'ardmoor');
if (!read.ok) throw new Error('the machine file must read');
const { machine } = read;

describe('a fastener in words', () => {
  it('says size, torque with stages in both units, and the book with its page', () => {
    const said = sayFastener(machine, 'cover-screws')!;
    expect(said.size).toBe('10 of 1/4-20 UNC × 1 1/4 in');
    // 1 lbf·ft = 1.3558179483 N·m (NIST SP 811, appendix B.8).
    expect(said.torque).toBe('12.2 N·m (9 lbf·ft)');
    expect(said.stages).toEqual(['9.49 N·m (7 lbf·ft)', '12.2 N·m (9 lbf·ft)']);
    expect(said.source).toBe('Ardmoor 650 Pathway, workshop book (invented), 6-14');
    expect(said.differs).toEqual([]);
  });

  it('takes the sheet of a part that comes new, shows where the book differs, and puts its figure for the last stage', () => {
    const old = sayFastener(machine, 'stator-screws')!;
    expect(old.torque).toBe('3.39–4.52 N·m (30–40 lbf·in)');
    const fresh = sayFastener(machine, 'stator-screws', ['alternator'])!;
    expect(fresh.torque).toBe('4.52–5.08 N·m (40–45 lbf·in)');
    expect(fresh.stages).toEqual(['2.26 N·m (20 lbf·in)', '4.52–5.08 N·m (40–45 lbf·in)']);
    expect(fresh.source).toBe('Sheet packed with the rewound stator (invented)');
    expect(fresh.differs).toEqual([
      'Ardmoor 650 Pathway, workshop book (invented) says 30–40 lbf·in',
      'Ardmoor 650 Pathway, workshop book (invented) says medium-strength thread locker',
    ]);
    expect(fresh.mind).toContain('low-strength thread locker');
  });

  it('warns of a left-hand thread, and knows no fastener that the file does not have', () => {
    const fasteners = { ...machine.fasteners! };
    const nut = fasteners['clutch-nut']!;
    const turned = {
      ...nut,
      loosens: { is: 'clockwise', from: 'book', page: null, note: null, also: [] },
    } as typeof nut;
    const said = sayFastener(
      { ...machine, fasteners: { ...fasteners, 'clutch-nut': turned } },
      'clutch-nut',
    )!;
    expect(said.mind.join()).toContain('LEFT-HAND THREAD');
    expect(sayFastener(machine, 'no-such-nut')).toBeNull();
  });

  it('sends the hand to the book where the file has no torque', () => {
    const fasteners = { ...machine.fasteners! };
    const bare = { ...fasteners['cover-screws']!, torque: null, stages: null };
    const said = sayFastener({ ...machine, fasteners: { ...fasteners, bare } }, 'bare')!;
    expect([said.torque, said.source, said.stages]).toEqual([null, null, []]);
    expect(said.mind[0]).toContain("by the bike's own book");
    expect(sayFastener(machine, 'cover-screws')!.mind.join()).not.toContain('own book');
  });
});
