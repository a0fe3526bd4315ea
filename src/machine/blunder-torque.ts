/**
 * Torques that cannot be meant. Room `joint` weighs an entry; the levels here leave a wider margin than its own words
 * do, because a file is a stranger's: books set M6 of class 8.8 at up to 12 N·m, which is 86 % of the proof load at
 * K = 0.2, and a check that cries at every such file is not read. Shares are this project's proposal.
 */
import { judgeTorque, judgingNutFactor } from '../joint/believable.ts';
import { gradeById, strengthOf } from '../joint/grade.ts';
import { sayShare, sayTorques } from '../joint/say.ts';
import { stressArea, type Thread } from '../joint/thread.ts';
import { type TorqueUnit, USUAL_K } from '../joint/unit-hint.ts';
import { quantity } from '../units/quantity.ts';
import type { KnownFastener } from './fastener-known.ts';
import type { Quantity } from './figure.ts';
import type { Finding } from './finding.ts';

/** Share of the proof load at K = 0.2 (or the condition's least, if more) that is dangerous, dimensionless. */
const DANGER_PROOF = 0.95;
/** The same of the tapped thread's strength, dimensionless. */
const DANGER_STRIP = 0.75;
/** With no grade known, the share of a class 8.8 or grade 5 screw's proof load that is doubtful, dimensionless. */
const DOUBT_UNGRADED = 1.25;
/** With anti-seize, the share of the proof load at K = 0.12 that is dangerous, dimensionless: it is beyond the proof. */
const DANGER_ANTI_SEIZE = 1.15;
/**
 * Share at K = 0.2 below which a torque clamps next to nothing, dimensionless: a tenth at K = 0.12. A little more where
 * another unit fits, or where the screw is known to sit in metal (in plastic a screw is barely nipped). With no grade
 * known it is held against the weakest screw there is, so its share may be asked a little more.
 */
const LOW = { plain: 0.06, ungraded: 0.08, metal: 0.09, hinted: 0.105, plug: 0.015 };
/** Largest plug whose torque is judged, m: larger ones are caps that are closed by hand. */
const LARGEST_PLUG = 0.018;
/** Largest thread of no known grade that is called slack without a unit at hand, m. */
const LARGEST_UNGRADED = 0.0201;
/** Shares at K = 0.2 between which the same figure in another unit makes sense, dimensionless. */
const SENSIBLE = { low: 0.15, high: 0.95 };
const UNITS = ['N·m', 'lbf·ft', 'lbf·in'] as const;

/** The unit a torque was written in, of those that are mixed up; null for any other. */
export function torqueUnit(text: string): TorqueUnit | null {
  const words = text.replace(/[\d.,–\-−±%]/g, ' ').toLowerCase();
  if (/kg|oz|[dck]n/.test(words)) return null;
  if (/ft|foot|feet/.test(words)) return 'lbf·ft';
  if (/in/.test(words)) return 'lbf·in';
  return /n/.test(words) ? 'N·m' : null;
}

const si = (unit: TorqueUnit) => quantity('torque', 1, unit).si;

function proofOf(thread: Thread, inch: string, metric: string): number {
  const diameter = Math.min(thread.diameter, thread.system === 'inch' ? 0.0381 : 0.039);
  const found = strengthOf(gradeById(thread.system === 'inch' ? inch : metric), diameter);
  if (!found.ok) throw new RangeError(`thread must be within the tables of grades, got ${thread.name}`);
  return found.strength.proof;
}

/** Proof stress that a screw of unknown grade is likely to have, and the least it may have, Pa. */
const usualProof = (thread: Thread) => proofOf(thread, 'j429-5', '8.8');
const weakProof = (thread: Thread) => proofOf(thread, 'j429-2', '4.6');

/** Units in which the same figure would make sense, as a sentence; empty where none does. */
function unitHint(torque: Quantity, shareAt: (torque: number) => number): string {
  const entered = torqueUnit(torque.text);
  if (entered === null) return '';
  const meant = UNITS.filter((unit) => {
    const share = shareAt((torque.high * si(unit)) / si(entered));
    return unit !== entered && share >= SENSIBLE.low && share <= SENSIBLE.high;
  });
  if (meant.length === 0) return '';
  const found = meant.map((unit) => {
    const share = shareAt((torque.high * si(unit)) / si(entered));
    return `${unit} (${sayShare(share)} of the proof load)`;
  });
  return `; ${found.join(' or ')} may be meant`;
}

/** Judges one torque of a fastener: the final one or a stage is no matter, `path` says which. */
export function torqueFindings(known: KnownFastener, torque: Quantity, path: string): readonly Finding[] {
  const { thread, strength, material, engaged, friction, plug } = known;
  if (thread === null || thread.diameter > 0.1) return [];
  const base = judgingNutFactor(friction);
  const k = { low: base.low, high: Math.max(base.high, 0.25) };
  const usual = Math.max(USUAL_K, k.low);
  const judged = judgeTorque({
    torque,
    unit: torqueUnit(torque.text),
    thread,
    strength,
    material,
    engaged,
    k,
  });
  const at = (share: number) => (share * k.low) / usual;
  const proofLoad = (strength?.proof ?? usualProof(thread)) * stressArea(thread);
  const shareAt = (of: number) => of / (usual * thread.diameter * proofLoad);
  const share = shareAt(torque.high);
  const hint = unitHint(torque, shareAt);
  const on = `${torque.text} on ${thread.name}${strength ? ` (${strength.name})` : ''}`;
  const lookUp = `Look up torque, unit, thread and grade in the book${hint}`;
  const tell = (level: Finding['level'], what: string, why: string): Finding[] => [
    { level, topic: 'torque', path, what, why: `${why}; an estimate, the book wins`, lookUp },
  ];
  const whose = strength ? "the screw's proof load" : 'the proof load of even the strongest screw';
  const causes = (proof: number, strip: number | null) =>
    [
      ...(proof > 0 ? [`${sayShare(proof)} of ${whose}`] : []),
      ...(strip ? [`${sayShare(strip)} of what the thread tapped in ${material!.name} bears`] : []),
    ].join(' and ');

  if (judged.verdict === 'impossible') {
    const strip = judged.because.includes('strip') ? judged.strip!.least : null;
    const proof = judged.because.includes('proof') ? judged.proof.least : 0;
    const why = `${sayTorques(torque)} is ${causes(proof, strip)} even at the highest friction, K = ${k.high}`;
    return tell(
      'impossible',
      `${on} cannot be: ${proof > 0 ? 'the screw breaks' : 'the thread strips'} first`,
      why,
    );
  }
  const proof = at(judged.proof.most);
  const strip = judged.strip ? at(judged.strip.most) : 0;
  if (proof > DANGER_PROOF || strip > DANGER_STRIP) {
    const found = causes(proof > DANGER_PROOF ? proof : 0, strip > DANGER_STRIP ? strip : null);
    return tell('danger', `${on} is too much`, `${sayTorques(torque)} is ${found} at K = ${say2(usual)}`);
  }
  if (!strength && share > DOUBT_UNGRADED) {
    const why = `${sayTorques(torque)} is ${sayShare(share)} of the proof load of ${thread.system === 'inch' ? 'a grade 5' : 'a class 8.8'} screw at K = ${say2(usual)}`;
    return tell('doubt', `${on} is much for a screw of no stated grade`, why);
  }
  if (friction.id === 'anti-seize' && (share * USUAL_K) / 0.12 > DANGER_ANTI_SEIZE) {
    const why = `With anti-seize K is about 0.12, and ${sayTorques(torque)} then is ${sayShare((share * USUAL_K) / 0.12)} of the proof load`;
    return tell('danger', `${on} reads like a figure for dry threads`, why);
  }
  // With no grade known the weakest decides what is too little, unless a unit is plainly at hand.
  const weakest = strength ? share : (share * usualProof(thread)) / weakProof(thread);
  // Large rings of no grade set a bearing or close a lid: only a plain slip of the unit is said of them.
  const judgeable = strength !== null || thread.diameter <= LARGEST_UNGRADED;
  const low = plug
    ? thread.diameter <= LARGEST_PLUG && share < LOW.plug
    : (judgeable && weakest < (material ? LOW.metal : strength ? LOW.plain : LOW.ungraded)) ||
      (hint !== '' && share < LOW.hinted);
  if (low) {
    const why = `${sayTorques(torque)} is ${sayShare(share)} of the proof load at K = ${say2(usual)}, so it clamps next to nothing`;
    return tell('doubt', `${on} is very little`, why);
  }
  return [];
}

const say2 = (value: number) => value.toFixed(2);
