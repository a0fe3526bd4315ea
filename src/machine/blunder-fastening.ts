/** Stages, locker, turning direction and places of fasteners. */
import { undoStrength } from '../joint/deviation.ts';
import { ONE_PLACE, readLayout } from '../joint/layout.ts';
import { sayTorques } from '../joint/say.ts';
import { failureTorque } from '../joint/strip.ts';
import { counting } from './counts.ts';
import type { Machine } from './definition.ts';
import { type KnownFastener, saidValue } from './fastener-known.ts';
import { middle, type Quantity } from './figure.ts';
import { type Finding, say } from './finding.ts';

/** Screws up to this size are small, m: M6 and 1/4 in. */
const SMALL = 6.5e-3;
/** From this size and torque on one must know which way a lone nut turns, m and N·m. This project's proposal. */
const BIG = { diameter: 11.5e-3, torque: 60 };
/** Fasteners that nobody cuts left-hand. */
const NEVER_LEFT = /axle|spindle|pivot|stem|fork|shock|mount|caliper|drain|plug|linkage|handlebar/i;
/** A stage that is under this share of the final torque may be in another unit, dimensionless. */
const SLIGHT_STAGE = 0.1;

type Sources = Pick<Machine, 'sources'>;

/** Stages that fall, pass the final torque, or are next to nothing beside it. */
export function stageFindings(machine: Sources, { path, fastener }: KnownFastener): readonly Finding[] {
  const stages = (fastener.stages ?? []).map((stage) => counting(machine, stage).is as Quantity);
  const final = saidValue<Quantity>(machine, fastener.torque);
  const out: Finding[] = [];
  const lookUp = 'Look up the stages, their order and their units; the order of the book wins';
  stages.forEach((stage, n) => {
    const at = `${path}.stages[${n}].is`;
    const before = stages[n - 1];
    if (before && stage.high < before.high * 0.999 && stage.low < before.low * 0.999) {
      const why = `Stage ${n} is ${sayTorques(before)}, stage ${n + 1} is ${sayTorques(stage)}`;
      out.push({ level: 'danger', topic: 'stages', path: at, what: 'the stages fall', why, lookUp });
    }
    if (final === null) return;
    if (stage.low > final.high * 1.001) {
      const why = `Stage ${n + 1} is ${sayTorques(stage)}, the final torque ${sayTorques(final)}`;
      out.push({
        level: 'danger',
        topic: 'stages',
        path: at,
        what: 'a stage exceeds the final torque',
        why,
        lookUp,
      });
    } else if (stage.high < final.low * SLIGHT_STAGE) {
      const why = `Stage ${n + 1} is ${sayTorques(stage)}, ${say((100 * middle(stage)) / middle(final))} % of the final ${sayTorques(final)}`;
      const what = 'a stage is next to nothing beside the final torque';
      out.push({
        level: 'doubt',
        topic: 'stages',
        path: at,
        what,
        why,
        lookUp: `${lookUp}; lbf·in beside lbf·ft differ by 12`,
      });
    }
  });
  return out;
}

/** A locker that does not suit the joint. */
export function lockerFindings(machine: Sources, known: KnownFastener): readonly Finding[] {
  const { path, fastener, locker, thread, material, friction, strength, engaged } = known;
  const out: Finding[] = [];
  const at = `${path}.locker.is`;
  const add = (level: Finding['level'], what: string, why: string, lookUp: string) => {
    out.push({ level, topic: 'locker', path: at, what, why, lookUp });
  };
  const book = 'Look up which locker the book or the sheet of the part names';
  if (locker === 'high' && fastener.opened === 'every-service') {
    const what = 'high-strength locker on a fastener that is undone at every service';
    add('danger', what, 'It lets go only at some 230–315 °C, and each undoing wears the thread', book);
  }
  const soft = material !== null && /alumin|magnes/i.test(material.name);
  if (locker === 'high' && soft && thread && thread.diameter <= SMALL) {
    const torque = saidValue<Quantity>(machine, fastener.torque);
    const told =
      torque && strength && engaged
        ? undoStrength({
            undo: { fitted: torque, locker, diameter: thread.diameter, engagement: engaged },
            breaking: failureTorque(thread, strength, material, engaged, { low: 0.17, high: 0.3 }).torque,
            inAluminium: true,
          }).words
        : `A ${thread.name} screw may break off in the ${material.name} when it is undone, and heat does not stay in it`;
    add('danger', 'high-strength locker on a small screw in aluminium', told.replace(/\.$/, ''), book);
  }
  if (locker !== null && locker !== 'none' && (friction.id === 'oiled' || friction.id === 'anti-seize')) {
    const what = `${locker}-strength locker on threads that are ${friction.id === 'oiled' ? 'oiled' : 'coated with anti-seize'}`;
    add(
      'danger',
      what,
      'Locker sets only on clean, dry threads',
      `${book}, and for which state of the threads the torque is meant`,
    );
  }
  if (locker === 'none' && friction.id === 'wet-locker') {
    const what = 'no locker is named, but the torque is for threads wet with locker';
    add('doubt', what, 'Without the locker K is higher and the same torque clamps less', book);
  }
  const reuse = saidValue<string>(machine, fastener.reuse);
  if (reuse === 'new' && fastener.opened === 'every-service' && locker === 'high') return out;
  if (
    reuse === 'reuse' &&
    /lock ?tab|tab washer|cotter|split pin|crush|single[ -]use|staked?\b|self-locking nut/i.test(
      fastener.name,
    )
  ) {
    out.push({
      level: 'doubt',
      topic: 'locker',
      path: `${path}.reuse.is`,
      what: 'a part that is bent, crushed or staked is to be used again',
      why: `"${fastener.name}" holds by being deformed once`,
      lookUp: 'Look up whether the book wants a new one each time',
    });
  }
  return out;
}

/** A turning direction that is missing where it matters, or contradicts the thread. */
export function directionFindings(machine: Sources, known: KnownFastener): readonly Finding[] {
  const { path, fastener, thread, leftHand } = known;
  const loosens = saidValue<string>(machine, fastener.loosens);
  const lookUp = 'Look up which way it turns before a bar goes on it';
  if (loosens !== null && leftHand !== null) {
    if ((loosens === 'clockwise') === leftHand) return [];
    const what = `a ${leftHand ? 'left' : 'right'}-hand thread does not loosen ${loosens}`;
    const why = 'Seen from its head, a right-hand thread loosens anticlockwise, a left-hand one clockwise';
    return [{ level: 'impossible', topic: 'direction', path: `${path}.loosens.is`, what, why, lookUp }];
  }
  if (loosens !== null || leftHand !== null || known.plug) return [];
  const torque = saidValue<Quantity>(machine, fastener.torque);
  const lone = (fastener.count ?? 1) === 1;
  if (!lone || !thread || !torque || NEVER_LEFT.test(fastener.name)) return [];
  if (thread.diameter < BIG.diameter || torque.high < BIG.torque) return [];
  const what = 'it is not said which way it loosens';
  const why = `A lone ${thread.name} at ${sayTorques(torque)} may well be left-hand, and the wrong way breaks it`;
  return [{ level: 'doubt', topic: 'direction', path, what, why, lookUp: `${lookUp}, and write "loosens"` }];
}

/** Counts that do not match the places, and two fasteners in one place. */
export function placeFindings({ path, fastener }: KnownFastener): readonly Finding[] {
  const { count, positions } = fastener;
  if (positions === null) return [];
  const out: Finding[] = [];
  const at = `${path}.positions`;
  const lookUp = 'Count them on the part';
  if (count !== null && positions.length !== count) {
    const what = `the count is ${count}, but ${positions.length} places are given`;
    const why = 'Each fastener has one place';
    out.push({ level: 'doubt', topic: 'count', path: at, what, why, lookUp });
  }
  const layout = readLayout(positions.map(({ x, y }) => ({ x: middle(x), y: middle(y) })));
  if (positions.length > 1 && !layout.ok) {
    const why = layout.why.split(':')[0]!;
    const what = 'two fasteners sit in one place';
    out.push({
      level: 'impossible',
      topic: 'count',
      path: at,
      what,
      why,
      lookUp: `${lookUp}; places nearer than ${ONE_PLACE * 100} % of the layout count as one`,
    });
  }
  return out;
}
