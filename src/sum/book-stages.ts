/** Sum: the stages of a torque as the book gives them, in both units and as settings of the wrench; each fall is told. */
import { type BookStage, bookStages, evenStages } from '../joint/book-stages.ts';
import { leverReach } from '../joint/wrench.ts';
import { printNumber } from '../units/print.ts';
import { type Entries, field, openEntries } from './entries.ts';
import { figureLine, shown } from './line.ts';
import { readRow } from './row.ts';
import type { Line, Reckoned, Refused, Sum, Texts } from './sum.ts';

const FIELDS = [
  field('stages', 'Stages the book gives, commas between', 'list', 'may', '5, 10, 14 N·m'),
  field('final', 'Or the last torque alone', 'torque', 'may', '14 N·m'),
  field('count', 'In how many stages', 'text', 'may', '3'),
  field('length', 'Middle of the grip to the drive', 'length', 'may', '10 in'),
  field('adapter', 'Adapter, drive to screw', 'length', 'may', '4 in'),
  field('angle', 'Angle of the adapter, 0° straight out', 'angle', 'may', '45°', '0°'),
  field('drag', 'Torque that turns it before it seats', 'torque', 'may', '0.5 N·m'),
  field('full', 'Full scale of the wrench', 'torque', 'may', '25 N·m'),
];

const MOST_STAGES = 10;
const TORQUE = { above: 0, most: 5000 };

/** The stages as entered, or even parts of the last torque. */
function torquesOf(read: Entries): readonly number[] | null {
  if (/°|\bdeg/i.test(read.text('stages')))
    return read.blame(
      'stages',
      'a turn by an angle is no torque: leave it out here, and turn by it after the last stage.',
    );
  const written = readRow(
    read,
    'stages',
    'torque',
    TORQUE,
    'is no torque of a stage: check the figure and its unit.',
    MOST_STAGES,
  );
  const last = read.one('final', TORQUE);
  const count = read.whole('count', 1, MOST_STAGES);
  if (read.empty('stages') && read.empty('final'))
    return read.blame('stages', 'neither they nor a last torque are entered: write e.g. 5, 10, 14 N·m.');
  if (!read.empty('stages')) {
    if (!read.empty('count') && written && count !== null && count !== written.length)
      read.blame(
        'count',
        `${written.length} stages are entered, and ${count} are said: correct one of them.`,
      );
    if (written && last !== null && Math.abs(written.at(-1)! / last - 1) > 1e-3)
      read.blame(
        'final',
        `it is not the last stage, ${shown('torque', { low: written.at(-1)!, high: written.at(-1)! })}: correct one of them, or leave it empty.`,
      );
    return written;
  }
  read.demand('count');
  return last === null || count === null ? null : evenStages(last, count);
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  const torques = torquesOf(read);
  const length = read.one('length', { above: 0, most: 10 });
  const adapter = read.one('adapter', { least: 0, most: 10 }) ?? 0;
  const angle = read.one('angle', { least: -2 * Math.PI, most: 2 * Math.PI }) ?? 0;
  const drag = read.one('drag', { least: 0, most: 5000 }) ?? 0;
  const fullScale = read.one('full', TORQUE);
  if (adapter > 0 && read.empty('length'))
    read.blame(
      'length',
      'an adapter is on, so it is needed: measure from the middle of the grip to the drive, e.g. 10 in.',
    );
  const bad = read.refused();
  if (bad) return bad;
  if (!torques) throw new RangeError('a field must be read or blamed, got neither');
  const reach = leverReach({ length: length ?? 1, adapter: length === null ? 0 : adapter, angle });
  if (!reach.ok) return { ok: false, faults: [{ field: 'adapter', why: reach.why }] };
  const { factor } = reach;
  const stages = bookStages({ torques, factor, drag, ...(fullScale === null ? {} : { fullScale }) });
  const note = read.empty('stages')
    ? 'Even parts are common practice, no source; stages that the book gives win.'
    : 'Do each stage on all screws, in their order, before the next.';
  const changed = factor !== 1 || drag > 0;
  return {
    ok: true,
    lines: stages.map((stage, i) => stageLine(stage, i, changed, drag > 0)),
    cautions: [...cautionsOf(stages), note],
    notes: [note],
    picture: {
      kind: 'torque-steps',
      steps: stages.map(({ torque, share, set, step }, i) => ({
        torque,
        words: [
          `Stage ${i + 1}: ${shown('torque', at(torque))}`,
          changed ? `set ${shown('torque', at(set))}` : sayShare(share),
        ],
        falls: step === 'falls',
      })),
    },
    solvedFor: null,
  };
}

const sayShare = (share: number) => `${printNumber(Number((share * 100).toPrecision(2)))} % of the last`;

const at = (value: number) => ({ low: value, high: value });

/** The figure is what goes on the wrench, since that is what the hand looks up. */
function stageLine({ torque, share, set }: BookStage, i: number, changed: boolean, drags: boolean): Line {
  return figureLine(`stage-${i + 1}`, `Stage ${i + 1}, set the wrench to`, 'torque', at(set), 3, (f) =>
    changed
      ? `Stage ${i + 1}: set ${f}; the screw then gets ${shown('torque', at(torque))}${drags ? ' beyond its drag' : ''}, ${sayShare(share)}.`
      : `Stage ${i + 1}: all screws to ${f}, ${sayShare(share)}.`,
  );
}

function cautionsOf(stages: readonly BookStage[]): readonly string[] {
  const cautions: string[] = [];
  stages.forEach(({ step, torque, range }, i) => {
    const [now, before] = [
      shown('torque', at(torque)),
      i > 0 ? shown('torque', at(stages[i - 1]!.torque)) : '',
    ];
    if (step === 'falls')
      cautions.push(
        `Stage ${i + 1}, ${now}, falls below stage ${i}, ${before}: a screw that has had more gets nothing from less. Read the book again; only where it says to back off between the two is it right.`,
      );
    if (step === 'repeats')
      cautions.push(`Stage ${i + 1} repeats stage ${i}, ${before}: go round again until nothing moves.`);
    if (range && !range.ok) cautions.push(`Stage ${i + 1}: ${range.why}`);
  });
  if (stages.length === 1) cautions.push('Only one stage is read: put a comma and a space between two.');
  return cautions;
}

export const BOOK_STAGES: Sum = {
  id: 'book-stages',
  words: 'Torque stages',
  about: "the book's stages of a torque in both units and as wrench settings",
  fields: FIELDS,
  example: { stages: '5, 10, 14 N·m', length: '250 mm', adapter: '50 mm', full: '25 N·m' },
  reckon,
};
