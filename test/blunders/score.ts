/** Plays planted blunders and sound files against the check, and counts class by class. */
import type { PlacedFinding } from '../../src/machine/finding.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { type Edit, edited, type Name } from './edit.ts';

export interface Plant {
  /** Class of the table. */
  readonly topic: string;
  readonly name: string;
  readonly machine: Name;
  readonly edit: Edit;
  /** Where it must be found, and a word of the right reason. */
  readonly path: RegExp;
  readonly says: RegExp;
}

/** Words of a plant in the order of a table. */
export function plant(
  topic: string,
  name: string,
  machine: Name,
  edit: Edit,
  path: RegExp,
  says: RegExp,
): Plant {
  return { topic, name, machine, edit, path, says };
}

export interface Sound {
  readonly topic: string;
  readonly name: string;
  readonly machine: Name;
  readonly edit: Edit;
}

export function sound(topic: string, name: string, machine: Name, edit: Edit): Sound {
  return { topic, name, machine, edit };
}

/** The year that plays as this year. */
const YEAR = 2026;

/** What one file shows: everything the check says of it, as path and words. */
function said(text: string): readonly { path: string; words: string; alarm: boolean }[] {
  const judged = judgeFile(text, 'planted.json', YEAR);
  const read = readMachine(text, 'planted.json');
  const problems = read.ok ? [] : read.problems;
  return [
    ...problems.map(({ path, what, fix }) => ({ path, words: `${what}. ${fix}`, alarm: true })),
    ...judged.findings.map((one) => ({ path: one.path, words: words(one), alarm: isAlarm(one) })),
  ];
}

const words = ({ what, why, lookUp }: PlacedFinding) => `${what}. ${why}. ${lookUp}`;

/** That sources differ is shown in any file where they do; everything else said of a sound file is a false alarm. */
const isAlarm = ({ level, topic }: PlacedFinding) => !(level === 'hint' && topic === 'sources');

/** Null when the plant is caught for the right reason, else what was said instead. */
export function missed({ machine, edit, path, says }: Plant): string | null {
  const all = said(edited(machine, edit));
  if (all.some((one) => path.test(one.path) && says.test(one.words))) return null;
  const alarms = all.filter(({ alarm }) => alarm);
  return alarms.map((one) => `${one.path}: ${one.words}`).join(' | ') || 'nothing was said';
}

/** Everything said of a sound file that should not be. */
export function falseAlarms({ machine, edit }: Sound): readonly string[] {
  return said(edited(machine, edit))
    .filter(({ alarm }) => alarm)
    .map((one) => `${one.path}: ${one.words}`);
}

export interface Row {
  readonly topic: string;
  readonly planted: number;
  readonly caught: number;
  readonly sound: number;
  readonly alarmed: number;
}

export interface Score {
  readonly rows: readonly Row[];
  readonly planted: number;
  readonly caught: number;
  readonly sound: number;
  readonly alarmed: number;
  /** What went wrong, a line each. */
  readonly faults: readonly string[];
}

export function score(plants: readonly Plant[], sounds: readonly Sound[]): Score {
  const rows = new Map<string, { planted: number; caught: number; sound: number; alarmed: number }>();
  const faults: string[] = [];
  const row = (topic: string) => {
    const known = rows.get(topic) ?? { planted: 0, caught: 0, sound: 0, alarmed: 0 };
    rows.set(topic, known);
    return known;
  };
  for (const plant of plants) {
    const at = row(plant.topic);
    at.planted += 1;
    const miss = missed(plant);
    if (miss === null) at.caught += 1;
    else faults.push(`missed: ${plant.topic}, ${plant.name}: ${miss}`);
  }
  for (const sound of sounds) {
    const at = row(sound.topic);
    at.sound += 1;
    const alarms = falseAlarms(sound);
    if (alarms.length === 0) continue;
    at.alarmed += 1;
    faults.push(`false alarm: ${sound.topic}, ${sound.name}: ${alarms.join(' | ')}`);
  }
  const list = [...rows].map(([topic, counts]) => ({ topic, ...counts }));
  const sum = (of: (one: Row) => number) => list.reduce((total, one) => total + of(one), 0);
  return {
    rows: list,
    planted: sum((one) => one.planted),
    caught: sum((one) => one.caught),
    sound: sum((one) => one.sound),
    alarmed: sum((one) => one.alarmed),
    faults,
  };
}

/** Least share of plants that must be caught, and most of the sound files that may be cried at, dimensionless. */
export const FLOOR = { caught: 0.95, alarmed: 0.03 };

export function passes({ planted, caught, sound, alarmed }: Score): boolean {
  return caught >= FLOOR.caught * planted && alarmed <= FLOOR.alarmed * sound;
}

/** The table, for a terminal. */
export function table({ rows, planted, caught, sound, alarmed }: Score): string {
  const line = (a: string, b: string, c: string, d: string, e: string) =>
    `${a.padEnd(28)}${b.padStart(9)}${c.padStart(9)}${d.padStart(9)}${e.padStart(9)}`;
  const share = (part: number, whole: number) =>
    whole === 0 ? '' : `${((100 * part) / whole).toFixed(1)} %`;
  return [
    line('class', 'planted', 'caught', 'sound', 'alarmed'),
    ...rows.map((one) =>
      line(one.topic, `${one.planted}`, `${one.caught}`, `${one.sound}`, `${one.alarmed}`),
    ),
    line('all', `${planted}`, `${caught}`, `${sound}`, `${alarmed}`),
    line('', '', share(caught, planted), '', share(alarmed, sound)),
  ].join('\n');
}
