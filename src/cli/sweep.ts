/** `sweep`: operating points over engine speed, as a table, as CSV, as JSON lines or as a drawing. */
import { solvePoint } from '../circuit/point.ts';
import { drawSweep } from './chart.ts';
import { CIRCUMSTANCES, readCircumstances, rpmOf } from './circumstances.ts';
import type { Command } from './command.ts';
import { NEW_PART, openMachine, titleOf } from './open-machine.ts';
import { either, numberOf } from './options.ts';
import { pointFigures, pointObject } from './point-columns.ts';
import { Refusal } from './refusal.ts';
import { writeCsv, writeTable } from './table.ts';

const MOST_ROWS = 400;

export const sweep: Command = {
  name: 'sweep',
  about: 'Show the same over a range of engine speeds, as a table, CSV or a drawing',
  takes: 'MACHINE',
  more: ['The drawing shows battery volts and amps over engine speed; send it to a file with >.'],
  options: [
    { name: '--from', value: 'RPM', about: 'first engine speed; 800 unless said' },
    { name: '--to', value: 'RPM', about: 'last engine speed; 6000 unless said' },
    { name: '--step', value: 'RPM', about: 'step; 400 unless said (100 for the drawing)' },
    ...CIRCUMSTANCES,
    NEW_PART,
    { name: '--csv', about: 'write comma-separated values' },
    { name: '--svg', about: 'write a drawing' },
    { name: '--json', about: 'write one JSON object a line' },
  ],
  example: {
    line: 'sweep machines/ardmoor-650-pathway.json --lights high --svg > sweep.svg',
    shows: 'volts and amps of the Ardmoor with high beam, drawn',
  },
  words: [1, 1],
  run: async (given, world) => {
    const form = either(given, '--csv', '--svg', '--json');
    const opened = await openMachine(given.words[0]!, given, world);
    const { phases } = opened.spec.alternator;
    const from = rpmOf(given, '--from', 800);
    const to = rpmOf(given, '--to', 6000);
    const step = numberOf(given, '--step', 1, 15_000, 'rpm', form === '--svg' ? 100 : 400);
    if (from > to) throw new Refusal(`--from ${from} lies above --to ${to}: swap them.`);
    const count = Math.floor((to - from) / step + 1e-9) + 1;
    if (count > MOST_ROWS) {
      throw new Refusal(
        `--step ${step} would make ${count} rows: choose a step of at least ${Math.ceil((to - from) / (MOST_ROWS - 1))}.`,
      );
    }
    const { bike, stateAt, words } = readCircumstances(given, opened.spec);
    const speeds = Array.from({ length: count }, (_, n) => Number((from + n * step).toFixed(6)));
    const points = speeds.map((rpm) => ({ rpm, point: solvePoint(bike, stateAt(rpm)) }));
    if (form === '--svg') return drawSweep(points, titleOf(opened), words, opened.spec.regulator.chargeVolts);
    if (form === '--json') {
      return points
        .map(({ rpm, point }) => `${JSON.stringify({ rpm, ...pointObject(point, phases) })}\n`)
        .join('');
    }
    const figures = pointFigures(phases);
    const columns = [{ name: 'rpm', unit: '', decimals: 0 }, ...figures];
    const rows = points.map(({ rpm, point }) => [rpm, ...figures.map(({ of }) => of(point))]);
    if (form === '--csv') return writeCsv(columns, rows);
    return `${titleOf(opened)}: ${words}\n\n${writeTable(columns, rows)}`;
  },
};
