import { describe, expect, it } from 'vitest';
import { writeNetlist } from '../../src/circuit/netlist.ts';
import { FAULTS } from '../reference/ngspice-faults.ts';
import { MACHINE_A, running, SWEPT } from '../reference/ngspice-machines.ts';

const machines = Object.entries(SWEPT);

describe('writeNetlist', () => {
  it.each(machines)('writes every fault of %s without a figure that SPICE cannot read', (_, sound) => {
    for (const change of Object.values(FAULTS)) {
      const text = writeNetlist(change(sound), running(900));
      expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
      expect(text).not.toMatch(/^R\S+ \S+ \S+ 0(e\+0)?$/m);
      expect(text.endsWith('.end\n')).toBe(true);
    }
  });

  it.each(machines)('tells every fault of %s from a sound bike', (_, sound) => {
    const plain = writeNetlist(sound, running(3000));
    for (const [name, change] of Object.entries(FAULTS)) {
      if (name === 'sound') continue;
      expect(writeNetlist(change(sound), running(3000)) === plain, name).toBe(false);
    }
  });

  it('names every element once', () => {
    for (const change of Object.values(FAULTS)) {
      const body = writeNetlist(change(MACHINE_A), running(900)).replace(/\.subckt[\s\S]*?\.ends/g, '');
      const names = [...body.matchAll(/^([A-Z]\w*) /gm)].map((match) => match[1]!.toLowerCase());
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('cuts a touching winding at its tap, and puts nothing of it past a touch at the terminal', () => {
    const midway = writeNetlist(
      { ...MACHINE_A, coreShort: { phase: 1, fraction: 0.25, ohm: 0.02 } },
      running(1000),
    );
    expect(midway).toMatch(/^Rcore1 tap1 0 2e-2$/m);
    expect(midway).toMatch(/^L10 \S+ \S+ 1\.5e-4 /m);
    expect(midway).toMatch(/^L11 \S+ \S+ 4\.5e-4 /m);
    const terminal = writeNetlist(
      { ...MACHINE_A, coreShort: { phase: 1, fraction: 1, ohm: 0.02 } },
      running(1000),
    );
    expect(terminal).toMatch(/^L10 \S+ \S+ 6e-4 /m);
    expect(terminal).not.toMatch(/^L11 /m);
  });

  it('warms the copper and weakens the magnets', () => {
    const hot = writeNetlist(MACHINE_A, { ...running(1000), windingCelsius: 110, magnet: 0.94 });
    // 0.1 Ω · (234.5 + 110)/(234.5 + 25)
    expect(hot).toMatch(/^Rw00 \S+ \S+ 1\.3275\d*e-1$/m);
    const peak = 17 * Math.sqrt(2 / 3) * 0.94;
    expect(hot).toContain(`SIN(0 ${Number(peak.toPrecision(9)).toExponential()} `);
  });

  it('keeps a title on its own line', () => {
    const text = writeNetlist(MACHINE_A, running(900), { title: 'one\n.end\ntwo' });
    expect(text.split('\n')[0]).toBe('* one .end two');
  });

  it('refuses a standing engine', () => {
    expect(() => writeNetlist(MACHINE_A, running(0))).toThrow(/rpm must be above 0, got 0/);
  });
});
