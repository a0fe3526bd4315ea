/** Sum: which of the torque wrenches at hand to take for a torque, what to set on it, and why that one. */

import { leverReach } from '../joint/wrench.ts';
import { tryWrenches, type Wrench, type WrenchPlan, type WrenchTask } from '../joint/wrench-plan.ts';
import { BEST_FROM, BEST_TO, fullScaleFor, USABLE_FROM } from '../joint/wrench-scale.ts';
import { printNumber } from '../units/print.ts';
import { field, openEntries } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import type { Picture } from './picture.ts';
import type { Line, Reckoned, Refused, Sum, Texts } from './sum.ts';
import { readWrenches, WRENCH_EXAMPLE } from './wrench-list.ts';

const FIELDS = [
  field('torque', 'Torque the screw shall get', 'torque', 'must', '7–9 lbf·ft'),
  field(
    'wrenches',
    'Torque wrenches at hand, one a line: name, range, length, error',
    'list',
    'must',
    WRENCH_EXAMPLE,
  ),
  field('adapter', 'Adapter, drive to screw', 'length', 'may', '2 in'),
  field('angle', 'Angle of the adapter, 0° straight out', 'angle', 'may', '45°', '0°'),
  field('drag', 'Torque that turns it before it seats', 'torque', 'may', '5 lbf·in'),
];

const begun = (name: string) => `${name.charAt(0).toUpperCase()}${name.slice(1)}`;
const percent = (share: number) => `${Math.round(share * 100)} %`;

/** What a wrench can be trusted with, at the screw, N·m; null where the adapter does not go with it. */
function usableAt({ fullScale, lowest = 0, length }: Wrench, { adapter = 0, angle = 0 }: WrenchTask) {
  const reach = leverReach({ length: length ?? 1, adapter: length === undefined ? 0 : adapter, angle });
  if (!reach.ok || (length === undefined && adapter > 0)) return null;
  const least = Math.max(lowest, USABLE_FROM * fullScale);
  const best = { low: Math.max(lowest, BEST_FROM * fullScale), high: BEST_TO * fullScale };
  const { factor } = reach;
  return {
    low: least * factor,
    high: fullScale * factor,
    best: best.low < best.high ? { low: best.low * factor, high: best.high * factor } : null,
  };
}

function whyBest(best: WrenchPlan, next: WrenchPlan | undefined): string {
  const where = `${percent(best.range.share)} of its full scale, ${best.range.place === 'best' ? 'within the best range, 30–80 % (US Army TM 1-1500-204-23-9)' : 'usable, though 30–80 % is the best range (US Army TM 1-1500-204-23-9)'}`;
  if (!next) return `It is the only one that can: the setting is ${where}.`;
  if (best.range.place !== next.range.place)
    return `The setting is ${where}; ${next.wrench.name} would be outside its best range.`;
  const error = (plan: WrenchPlan) => plan.accuracy + Math.abs(plan.rounding);
  if (error(next) - error(best) > 1e-9)
    return `The setting is ${where}; with its marks it may be off ${percentage(error(best))}, and ${next.wrench.name} ${percentage(error(next))}.`;
  const easier = best.push && next.push && best.push.force < next.push.force;
  return `The setting is ${where}; ${next.wrench.name} would be as exact${easier ? ', but its shorter lever takes a harder push' : ''}.`;
}

function percentage(share: number): string {
  return `${printNumber(Number((share * 100).toPrecision(2)))} %`;
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('torque', 'wrenches');
  const torque = read.span('torque', { above: 0, most: 5000 });
  const wrenches = readWrenches(read, 'wrenches');
  const adapter = read.one('adapter', { least: 0, most: 10 }) ?? 0;
  const angle = read.one('angle', { least: -2 * Math.PI, most: 2 * Math.PI }) ?? 0;
  const drag = read.one('drag', { least: 0, most: 5000 }) ?? 0;
  const unmeasured = adapter > 0 ? wrenches?.find(({ length }) => length === undefined) : undefined;
  if (unmeasured)
    read.blame(
      'wrenches',
      `${unmeasured.name} has no length, and an adapter goes on: add what it measures from the middle of the grip to the drive, e.g. 9 in.`,
    );
  const bad = read.refused();
  if (bad) return bad;
  if (!torque || !wrenches) throw new RangeError('a field must be read or blamed, got neither');
  const task: WrenchTask = {
    torque: (torque.low + torque.high) / 2,
    drag,
    adapter,
    angle,
    ...(torque.low < torque.high ? { allowed: { low: torque.low, high: torque.high } } : {}),
  };
  const { plans, unfit } = tryWrenches(task, wrenches);
  const [best, ...others] = plans;
  const target = task.torque + drag;
  const at = (value: number) => ({ low: value, high: value });
  const lines: Line[] = best ? bestLines(best, others[0]) : [noneLine(target)];
  const row = (wrench: Wrench, says: string) => {
    const usable = usableAt(wrench, task);
    const words = `${begun(wrench.name)}, usable at the screw`;
    const id = `wrench-${wrenches.indexOf(wrench) + 1}`;
    lines.push(
      usable
        ? figureLine(
            id,
            words,
            'torque',
            usable,
            3,
            (f) => `${begun(wrench.name)} is good for ${f} at the screw. ${says}`,
          )
        : wordLine(id, words, 'not with this', `${begun(wrench.name)}: ${says}`),
    );
  };
  for (const plan of plans) {
    const error = `errs ${percentage(plan.accuracy)} either way${plan.wrench.accuracy === undefined ? ' (ISO 6789, from memory)' : ' by its sheet'}`;
    row(
      plan.wrench,
      plan === best
        ? `This is the one to take; it ${error}.`
        : `It would do too, set to ${settingOf(plan)}, ${percent(plan.range.share)} of its full scale; it ${error}.`,
    );
  }
  for (const { wrench, why } of unfit) row(wrench, `It will not do: ${why}`);
  return {
    ok: true,
    lines,
    // Which part of its range it works in is told already.
    cautions: best?.cautions.filter((caution) => !caution.includes('is the best range')) ?? [],
    picture: pictureOf(wrenches, task, target, shown('torque', at(target)), best),
    solvedFor: null,
  };
}

function settingOf(plan: WrenchPlan): string {
  const [mark] = plan.marks;
  const exact = shown('torque', { low: plan.set, high: plan.set });
  return mark ? `${printNumber(mark.figure)} ${mark.unit}, the mark nearest to ${exact}` : exact;
}

function bestLines(best: WrenchPlan, next: WrenchPlan | undefined): Line[] {
  const { wrench, marks, set, torque, factor } = best;
  const dial = marks[0]?.set ?? set;
  return [
    wordLine('take', 'Take', wrench.name, `Take ${wrench.name}. ${whyBest(best, next)}`),
    figureLine(
      'set',
      'Setting',
      'torque',
      { low: dial, high: dial },
      3,
      () =>
        `Set it to ${settingOf(best)}${factor === 1 ? '' : `; the adapter makes ${printNumber(Number(factor.toPrecision(3)))} times that of it`}.`,
    ),
    figureLine(
      'torque',
      'At the screw',
      'torque',
      torque,
      3,
      (f) => `With the wrench's own error the screw gets ${f}.`,
    ),
  ];
}

function noneLine(target: number): Line {
  const scale = fullScaleFor(target);
  return wordLine(
    'take',
    'Take',
    'none fits',
    `None of them can be trusted with ${shown('torque', { low: target, high: target })}: a wrench is good for 20–100 % of its full scale (US Army TM 1-1500-204-23-9), so borrow one with a full scale of ${shown('torque', scale, 2)}.`,
  );
}

function pictureOf(
  wrenches: readonly Wrench[],
  task: WrenchTask,
  target: number,
  words: string,
  best: WrenchPlan | undefined,
): Picture | null {
  const rows = wrenches.flatMap((wrench) => {
    const usable = usableAt(wrench, task);
    return usable
      ? [
          {
            name: wrench.name,
            low: usable.low,
            high: usable.high,
            best: usable.best,
            taken: wrench === best?.wrench,
          },
        ]
      : [];
  });
  return rows.length > 0 ? { kind: 'wrench-ranges', rows, target, words } : null;
}

export const WRENCH_CHOICE: Sum = {
  id: 'wrench-choice',
  words: 'Which wrench',
  about: 'which of the torque wrenches at hand to take for a torque, and why',
  fields: FIELDS,
  example: {
    torque: '42 lbf·ft',
    adapter: '2 in',
    wrenches:
      'small: 20–200 lbf·in, 9 in, 4 %, step 1 lbf·in\nmiddle: 10–80 lbf·ft, 15 in\nlarge: 40–200 N·m, 450 mm, 3 %',
  },
  reckon,
};
