/** Records of what goes on wet: thread locker and sealant, on clean faces, with the temperature that rules their clocks. */
import { lockerDeviation } from '../joint/deviation.ts';
import { frictionById } from '../joint/friction.ts';
import { type LockerStrength, lockerAdvice, lockerClock, type Surface } from '../joint/locker.ts';
import { sayTime } from '../joint/say.ts';
import { sealantClock } from '../joint/sealant.ts';
import { stressArea } from '../joint/thread.ts';
import { counting } from '../machine/counts.ts';
import { field, openEntries, YES_NO } from '../sum/entries.ts';
import { type Asking, type AskKind, type Look, lacking, sound } from './ask.ts';

const KELVIN = 273.15;
const WEATHER = { least: KELVIN - 40, most: KELVIN + 100 };
const STRENGTHS = ['none', 'low', 'medium', 'high'].map((id) => ({ id, words: id }));
const METALS = ['steel', 'aluminium', 'stainless', 'plated'].map((id) => ({ id, words: id }));

const LOCKER_LOOKS: readonly Look[] = [
  { id: 'clean', words: 'Both threads clean and dry' },
  { id: 'whole', words: 'Locker over the whole thread that will hold' },
];

function lockerFields({ fastener }: Asking) {
  const metal =
    fastener?.material && /alumin|cast|6061|2024|7075/i.test(fastener.material.name) ? 'aluminium' : 'steel';
  return [
    field('used', 'Thread locker that goes on', 'choice', 'must', 'medium', '', STRENGTHS),
    field('temperature', 'Temperature of the parts', 'temperature', 'must', '20 °C'),
    field('surface', 'The slower of the two metals', 'choice', 'must', metal, metal, METALS),
    field('primer', 'Primer used', 'choice', 'may', 'no', 'no', YES_NO),
  ];
}

/** The locker the file wants on the fastener of this step; null where it says nothing, `none` where none. */
export function lockerWanted({ machine, fastener, fresh }: Asking): LockerStrength | 'none' | null {
  const said = fastener?.fastener.locker ?? null;
  return said === null ? null : (counting(machine, said, fresh).is as LockerStrength | 'none');
}

/** Where a locker goes on: at its own step, else at the first that turns the screw. */
function locksHere(asking: Asking): boolean {
  const { step, list } = asking.place;
  if (step?.kind === 'lock') return true;
  const wanted = lockerWanted(asking);
  if (step === null || wanted === null || wanted === 'none') return false;
  if (list.some(({ kind }) => kind === 'lock')) return false;
  const first = list.find(({ kind }) => kind === 'torque' || kind === 'retainer');
  return first?.id === step.id;
}

/** Traps of dirty threads and of a locker too strong: what went on, on what, and how warm. */
export const LOCKER_ASK: AskKind = {
  ask: (asking) => {
    if (!locksHere(asking)) return null;
    const wanted = lockerWanted(asking);
    const blind = asking.fastener?.holeDepth != null;
    return {
      id: 'locker',
      title:
        wanted === null || wanted === 'none'
          ? 'Thread locker'
          : `Thread locker: ${wanted} strength is wanted`,
      why: lockerAdvice(wanted === null || wanted === 'none' ? 'medium' : wanted, blind, false)[1]!,
      looks: LOCKER_LOOKS,
      fields: lockerFields(asking),
    };
  },
  judge: (asking, texts, yes) => {
    const read = openEntries(lockerFields(asking), texts);
    read.demand('used', 'temperature');
    const used = read.empty('used') ? '' : read.choice('used');
    const kelvin = read.one('temperature', WEATHER);
    const [surface, primer] = [read.choice('surface') as Surface, read.choice('primer') === 'yes'];
    // Without a locker the metal and the cold do not matter.
    const clock =
      used === '' || used === 'none' || kelvin === null
        ? null
        : lockerClock({ temperature: kelvin - KELVIN, surface, primer });
    if (clock && !clock.ok) read.blame('temperature', clock.why);
    const bad = lacking(LOCKER_LOOKS, yes, read.refused());
    if (bad) return bad;
    const says = clock?.ok
      ? [
          `Every torque within ${sayTime(clock.handling.low)}; its full strength after about ${sayTime(clock.full.high)}: no engine before.`,
        ]
      : [];
    return sound({ temperatureK: kelvin! }, says, lockerStops(asking, used as LockerStrength | 'none'));
  },
};

/** What another locker than the wanted one means; empty where it is the wanted one or none is known to be wanted. */
export function lockerStops(asking: Asking, used: LockerStrength | 'none'): readonly string[] {
  const wanted = lockerWanted(asking);
  if (wanted === null || used === wanted) return [];
  const { fastener, machine, fresh } = asking;
  const plain = `${used === 'none' ? 'No locker' : `A ${used}-strength locker`} went on, and ${wanted === 'none' ? 'none' : `${wanted} strength`} is wanted.`;
  const torque = fastener?.fastener.torque;
  if (!fastener?.thread || !fastener.strength || !torque) {
    const after =
      used === 'high'
        ? ' It comes apart only with local heat of about 230–315 °C (from memory).'
        : ' Whether it holds is not known here.';
    return [`${plain}${after}`];
  }
  const { is } = counting(machine, torque, fresh);
  const { k } = frictionById('dry');
  const load = stressArea(fastener.thread) * fastener.strength.tensile;
  const locker = (strength: LockerStrength | 'none'): LockerStrength | null =>
    strength === 'none' ? null : strength;
  const { severity, words } = lockerDeviation(
    {
      undo: {
        fitted: { low: is.low, high: is.high },
        locker: locker(used),
        diameter: fastener.thread.diameter,
        engagement: fastener.engaged ?? fastener.thread.diameter,
      },
      breaking: {
        low: load * k.low * fastener.thread.diameter,
        high: load * k.high * fastener.thread.diameter,
      },
      inAluminium: /alumin|cast/i.test(fastener.material?.name ?? ''),
    },
    locker(wanted),
  );
  return severity === 'none' ? [] : [words];
}

const BEAD_LOOKS: readonly Look[] = [
  { id: 'clean', words: 'Both faces clean and free of grease' },
  { id: 'passage', words: 'A thin bead, none in or beside an oil passage' },
];

const BEAD_FIELDS = [
  field('cure', 'Cure of the sealant', 'choice', 'must', 'neutral', '', [
    { id: 'neutral', words: 'neutral' },
    { id: 'acid', words: 'acid: smells of vinegar' },
  ]),
  field('temperature', 'Temperature of the parts', 'temperature', 'must', '20 °C'),
  field('humidity', 'Humidity of the air', 'ratio', 'may', '50 %', '50 %'),
  field('depth', 'Depth of the bead from its open face', 'length', 'may', '2 mm', '2 mm'),
];

/** Trap of sealant in a passage, and the start of its window. */
export const BEAD_ASK: AskKind = {
  ask: ({ place }) =>
    place.step?.kind === 'seal' || place.step?.asks?.includes('bead')
      ? {
          id: 'bead',
          title: 'The bead',
          why: 'Sealant squeezed into a passage starves a bearing; a bead that skinned before the joint closed leaks.',
          looks: BEAD_LOOKS,
          fields: BEAD_FIELDS,
        }
      : null,
  judge: (_asking, texts, yes) => {
    const read = openEntries(BEAD_FIELDS, texts);
    read.demand('cure', 'temperature');
    const cure = read.empty('cure') ? 'neutral' : (read.choice('cure') as 'neutral' | 'acid');
    const kelvin = read.one('temperature', WEATHER);
    const humidity = read.one('humidity', { least: 0, most: 1 }) ?? 0.5;
    const depth = read.one('depth', { least: 1e-5, most: 0.05 }) ?? 0.002;
    const clock =
      kelvin === null || read.refused()
        ? null
        : sealantClock({ temperature: kelvin - KELVIN, humidity, depth, cure, nearElectrics: true });
    if (clock && !clock.ok) read.blame(/Acid/.test(clock.why) ? 'cure' : 'temperature', clock.why);
    const bad = lacking(BEAD_LOOKS, yes, read.refused());
    if (bad) return bad;
    if (!clock?.ok) throw new RangeError('a field must be read or blamed, got neither');
    return sound({ temperatureK: kelvin!, humidity, depthM: depth }, [
      `Close the joint within ${sayTime(clock.skin.low)}; no oil before about ${sayTime(clock.through.high)}.`,
    ]);
  },
};
