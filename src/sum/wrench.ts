/** Sum: what to set on a torque wrench, with an adapter and with drag; any one of its figures from the others. */
import { judgePush } from '../joint/hand-force.ts';
import { adapterFor, handSpread, lengthFor, leverReach } from '../joint/wrench.ts';
import { rangePlace, wrenchAccuracy } from '../joint/wrench-scale.ts';
import { field, openEntries } from './entries.ts';
import { figureLine, shown } from './line.ts';
import type { Line, Reckoned, Refused, Sum, Texts } from './sum.ts';

const TORQUE = { above: 0, most: 5000 };
const LENGTH = { above: 0, most: 10 };

const FIELDS = [
  field('torque', 'Torque the screw shall get', 'torque', 'solve', '35 lbf·in'),
  field('set', 'Setting of the wrench', 'torque', 'solve', '25 lbf·in'),
  field('length', 'Middle of the grip to the drive', 'length', 'solve', '10 in'),
  field('adapter', 'Adapter, drive to screw', 'length', 'solve', '4 in'),
  field('angle', 'Angle of the adapter, 0° straight out', 'angle', 'may', '45°', '0°'),
  field('drag', 'Torque that turns it before it seats', 'torque', 'may', '5 lbf·in'),
  field('full', 'Full scale of the wrench', 'torque', 'may', '150 lbf·in'),
];

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  const torque = read.one('torque', TORQUE);
  const set = read.one('set', TORQUE);
  const length = read.one('length', LENGTH);
  const adapter = read.one('adapter', { least: 0, most: 10 });
  const angle = read.one('angle', { least: -2 * Math.PI, most: 2 * Math.PI }) ?? 0;
  const drag = read.one('drag', { least: 0, most: 5000 }) ?? 0;
  const full = read.one('full', TORQUE);
  if (read.empty('torque') && read.empty('set'))
    read.blame('torque', 'neither it nor the setting is entered: enter one of them, e.g. 35 lbf·in.');
  if (read.empty('length') && (read.empty('torque') || read.empty('set') || read.empty('adapter')))
    read.blame('length', 'nothing is entered: measure from the middle of the grip to the drive, e.g. 10 in.');
  const bad = read.refused();
  if (bad) return bad;
  const fail = (why: string): Refused => ({ ok: false, faults: [{ field: null, why }] });

  let [arm, reach] = [length ?? 0, adapter ?? 0];
  let solvedFor: string | null = null;
  if (torque !== null && set !== null && length === null) {
    const found = lengthFor(torque + drag, set, Math.max(reach, 1e-9), angle);
    if (!found.ok) return fail(found.why);
    [arm, solvedFor] = [found.length, 'length'];
  } else if (torque !== null && set !== null && adapter === null) {
    const found = adapterFor(torque + drag, set, arm, angle);
    if (!found.ok) return fail(found.why);
    [reach, solvedFor] = [found.adapter, 'adapter'];
  }
  const lever = { length: arm, adapter: reach, angle };
  const turn = leverReach(lever);
  if (!turn.ok) return fail(turn.why);
  if (set === null) solvedFor = 'set';
  if (torque === null) solvedFor = 'torque';
  const target = torque === null ? set! * turn.factor : torque + drag;
  const dial = set ?? target / turn.factor;
  const got = dial * turn.factor - drag;
  if (got <= 0)
    return fail(
      'The drag takes all of this setting, and nothing is left to clamp: set more, or find out why it turns so hard.',
    );

  const at = (value: number) => ({ low: value, high: value });
  const lines: Line[] = [
    figureLine('set', 'Setting', 'torque', at(dial), 3, (f) => `Set the wrench to ${f}.`),
    figureLine(
      'torque',
      'At the screw',
      'torque',
      at(got),
      3,
      (f) => `The screw then gets ${f}${drag > 0 ? ' beyond its drag' : ''}.`,
    ),
  ];
  if (solvedFor === 'length')
    lines.unshift(
      figureLine(
        'length',
        'Wrench',
        'length',
        at(arm),
        3,
        (f) => `It takes ${f} from the middle of the grip to the drive.`,
      ),
    );
  if (solvedFor === 'adapter')
    lines.unshift(
      figureLine('adapter', 'Adapter', 'length', at(reach), 3, (f) => `It takes an adapter of ${f}.`),
    );
  const cautions: string[] = [];
  if (torque !== null && set !== null && solvedFor === null && Math.abs(got / torque - 1) > 0.005)
    cautions.push(
      `This setting does not give ${shown('torque', at(torque))}: all figures were entered, leave the one empty that is to be worked out.`,
    );
  if (full !== null) {
    const accuracy = wrenchAccuracy(full);
    const off = dial * turn.factor * accuracy;
    lines.push(
      figureLine(
        'spread',
        'With the wrench’s error',
        'torque',
        { low: Math.max(0, got - off), high: got + off },
        3,
        (f) => `With the wrench's own error of ${Math.round(accuracy * 100)} % either way that is ${f}.`,
      ),
    );
    const place = rangePlace(dial, full);
    if (!place.ok) cautions.push(place.why);
    else if (place.place === 'usable')
      cautions.push('The setting is usable, but 30–80 % of full scale is the best range.');
  }
  const push = judgePush(dial, arm);
  lines.push(
    figureLine(
      'hand',
      'Hand at the grip',
      'force',
      at(push.force),
      3,
      (f) => `The hand pushes with ${f} at the middle of the grip.`,
    ),
  );
  if (!push.easy) cautions.push(push.words);
  const astray = Math.min(0.025, arm / 2);
  const spread = handSpread(dial, lever, astray);
  if (reach > 0 && 'low' in spread && spread.high - spread.low > 0.02 * (got + drag))
    cautions.push(
      `Pull at the middle of the grip: a hand ${shown('length', at(astray), 2)} off it makes ${shown('torque', spread)} of it.`,
    );
  return {
    ok: true,
    lines,
    cautions,
    picture: {
      kind: 'lever',
      length: arm,
      adapter: reach,
      angle,
      set: shown('torque', at(dial)),
      torque: shown('torque', at(got)),
    },
    solvedFor,
  };
}

export const WRENCH: Sum = {
  id: 'wrench',
  words: 'Wrench setting',
  about: 'what to set on a torque wrench with an adapter',
  fields: FIELDS,
  example: { torque: '35 lbf·in', length: '10 in', adapter: '4 in' },
  reckon,
};
