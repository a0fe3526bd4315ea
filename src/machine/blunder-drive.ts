/** Chains, shims and fluids that do not fit what they go on, between or into. */
import { type Drive, freeSpan, leastCentre, tangentLength, tipGap } from '../drive/chain.ts';
import { chooseShims } from '../drive/choose-shims.ts';
import { printFine, printLength } from '../drive/print-length.ts';
import { shimForEndPlay } from '../drive/shim.ts';
import { printRangeBoth } from '../units/print.ts';
import type { Chain, Fluid, Machine, Shims } from './definition.ts';
import { saidValue } from './fastener-known.ts';
import { middle, type Quantity } from './figure.ts';
import { type Finding, say } from './finding.ts';

type Sources = Pick<Machine, 'sources'>;

/** Believable share of slack in the free span, dimensionless, and the share no formula holds for. From memory. */
const SLACK = { least: 0.008, most: 0.13, cannot: 0.25 };
/** Pitches a chain may be short of the sum: a tape at the centre distance is no better. Longer ones by how it is set. */
const SHORT = 0.6;
const LONG = { shafts: 3, shoe: 1.75, not: 1.75 };
/** Pitches of motorcycle chains, m: from silent cam chains to the largest drive chains. From memory. */
const PITCHES = [5e-3, 20e-3] as const;

/** Chains that may turn the driven shaft faster: they run what hangs beside the engine. */
const SPEEDS_UP = /pump|balanc|start|dynamo|generator|magneto|blower|charger/i;

const sayRange = (of: Quantity) =>
  of.low === of.high ? printLength(of.low) : `${printLength(of.low)} to ${printLength(of.high)}`;

export function chainFindings(machine: Sources, path: string, chain: Chain): readonly Finding[] {
  const out: Finding[] = [];
  const add = (level: Finding['level'], at: string, what: string, why: string, lookUp: string) => {
    out.push({ level, topic: 'chain', path: `${path}.${at}`, what, why, lookUp });
  };
  const pitch = middle(saidValue<Quantity>(machine, chain.pitch)!);
  const [z1, z2] = [
    saidValue<number>(machine, chain.drivingTeeth),
    saidValue<number>(machine, chain.drivenTeeth),
  ];
  const links = saidValue<number>(machine, chain.links);
  const centre = saidValue<Quantity>(machine, chain.centre);
  const slack = saidValue<Quantity>(machine, chain.slack);
  if (pitch < PITCHES[0] || pitch > PITCHES[1]) {
    const why = `Chains of motorcycles have ${printLength(PITCHES[0])} to ${printLength(PITCHES[1])}, not ${printLength(pitch)}`;
    add(
      'doubt',
      'pitch.is',
      'the pitch is not that of a motorcycle chain',
      why,
      'Measure over ten links and divide by ten',
    );
  }
  if (links !== null && links % 2 === 1) {
    const why = `Inner and outer links alternate, so ${links} need a cranked half link`;
    add('doubt', 'links.is', 'an odd number of links', why, 'Count the links again, or look for a half link');
  }
  if (z1 !== null && z2 !== null && Math.max(z1, z2) > 5.5 * Math.min(z1, z2)) {
    const why = `${z1} against ${z2} teeth is 1 to ${say(Math.max(z1, z2) / Math.min(z1, z2))}`;
    add('doubt', 'drivenTeeth.is', 'so large a step of teeth is not made', why, 'Count the teeth');
  }
  if (z1 !== null && z2 !== null && z1 > z2 && !SPEEDS_UP.test(chain.name)) {
    const why = `${z1} teeth drive ${z2}, so the driven shaft would turn faster, where final, primary and cam chains slow it down`;
    add(
      'doubt',
      'drivenTeeth.is',
      'driving and driven sprocket look swapped',
      why,
      'Count the teeth of both',
    );
  }
  if (chain.slackWhen === 'hot' && chain.adjusted !== 'shafts') {
    const why = 'A hot case spreads the shafts, and a chain set hot hangs far too loose when cold';
    add(
      'doubt',
      'slackWhen',
      'the slack is meant for a hot engine',
      why,
      'Look up whether the book measures cold',
    );
  }
  let span = centre ? middle(centre) : null;
  if (centre && z1 !== null && z2 !== null) {
    const teeth = [z1, z2] as const;
    const least = leastCentre(pitch, teeth);
    const high: Drive = { pitch, teeth, centre: centre.high };
    if (centre.high <= least * 1.0001 || tipGap(high) < 0) {
      const why = `With ${z1} and ${z2} teeth of ${printLength(pitch)} the shafts must be more than ${printLength(least)} apart, not ${sayRange(centre)}`;
      add(
        'impossible',
        'centre.is',
        'the sprockets would overlap',
        why,
        'Check centre distance, pitch, teeth and their units',
      );
      span = null;
    } else {
      span = freeSpan(high);
      if (links !== null)
        out.push(...linkFindings(path, chain, high, Math.max(centre.low, least * 1.0002), links));
    }
  }
  if (slack && span !== null) {
    const share = slack.high / span;
    const why = `${sayRange(slack)} on a free span of ${printLength(span)} is ${say((100 * slack.low) / span)} to ${say(100 * share)} %`;
    const lookUp = 'Look up the slack, its unit, and whether it is the whole movement';
    if (share > SLACK.cannot) add('impossible', 'slack.is', 'no chain has so much slack', why, lookUp);
    else if (share > SLACK.most)
      add('danger', 'slack.is', 'so slack a chain jumps or strikes the case', why, lookUp);
    else if (share < SLACK.least)
      add('danger', 'slack.is', 'a chain with next to no slack runs taut', why, lookUp);
    else if (slack.high > 4 * slack.low) add('doubt', 'slack.is', 'the range of slack is wide', why, lookUp);
  }
  return out;
}

function linkFindings(path: string, chain: Chain, high: Drive, low: number, links: number): Finding[] {
  const shortest = tangentLength({ ...high, centre: low });
  const longest = tangentLength(high);
  const how = chain.adjusted ?? 'shafts';
  // Shafts that are set apart have travel beyond a single figure; where a range is given that is the travel.
  const short = how === 'shafts' && low === high.centre ? 2.6 : SHORT;
  const why = `${high.teeth[0]} and ${high.teeth[1]} teeth at ${printLength(high.centre)} take ${say3(longest)} pitches, the chain has ${links}`;
  const lookUp = 'Count links and teeth, and measure the centre distance';
  const at = `${path}.links.is`;
  const find = (level: Finding['level'], what: string): Finding[] => [
    { level, topic: 'chain', path: at, what, why, lookUp },
  ];
  if (links < shortest - short) return find('impossible', 'the chain is too short for its sprockets');
  if (links > longest + LONG[how]) return find('danger', 'the chain is too long for its sprockets');
  return [];
}

const say3 = (value: number) => value.toFixed(1);

/** Believable thickness of a shim, m. From memory. */
const THICKEST = 6e-3;
const THINNEST = 0.01e-3;

export function shimFindings(machine: Sources, path: string, shims: Shims): readonly Finding[] {
  const out: Finding[] = [];
  const add = (level: Finding['level'], at: string, what: string, why: string, lookUp: string) => {
    out.push({ level, topic: 'shims', path: at === '' ? path : `${path}.${at}`, what, why, lookUp });
  };
  const sizes = shims.sizes.map(({ thickness, count }) => ({ thickness: middle(thickness), count }));
  sizes.forEach(({ thickness }, n) => {
    const at = `sizes[${n}].thickness`;
    const lookUp = 'Measure it with a micrometer, and check the unit';
    if (thickness > THICKEST || thickness < THINNEST) {
      const why = `Shims are ${printFine(THINNEST)} to ${printFine(THICKEST)} thick, not ${printFine(thickness)}`;
      add('doubt', at, 'no shim is that thick or thin', why, lookUp);
    } else if (sizes.findIndex((other) => Math.abs(other.thickness - thickness) < 1e-8) < n)
      add(
        'doubt',
        at,
        'one thickness stands twice',
        `${printFine(thickness)} is listed before`,
        'Add up the counts, or correct one',
      );
  });
  const wish = wishOf(machine, shims);
  if (wish === null || sizes.length === 0) return out;
  if ('why' in wish) {
    add(
      'impossible',
      'play.is',
      'no shim gives that play',
      wish.why.replace(/\.$/, ''),
      'Measure the play without shims again',
    );
    return out;
  }
  if (wish.high < wish.low || wish.high < 0) return out;
  const found = chooseShims(sizes, { ...wish, target: (wish.low + wish.high) / 2 }, shims.most ?? 8);
  if (!found.ok) {
    const [why = found.why, near = ''] = found.why.replace(/\.$/, '').split('; ');
    add(
      'doubt',
      '',
      'the shims at hand cannot make the stack that is wanted',
      near ? `${why}, ${near}` : why,
      'Check thicknesses and units, or buy another size',
    );
  }
  return out;
}

function wishOf(machine: Sources, shims: Shims) {
  const stack = saidValue<Quantity>(machine, shims.stack);
  if (stack) return { low: stack.low, high: stack.high };
  const bare = saidValue<Quantity>(machine, shims.bare);
  const play = saidValue<Quantity>(machine, shims.play);
  if (!bare || !play) return null;
  const wish = shimForEndPlay(middle(bare), { low: play.low, high: play.high });
  return wish.ok ? { low: wish.wish.low, high: wish.wish.high } : { why: wish.why };
}

/** Share of its case that a fluid fills at least, dimensionless. From memory; deliberately wide. */
const LEAST_FILL = 0.06;
/**
 * What goes into anything of a motorcycle, m³, where its space is not told: a cylinder of a brake takes some millilitres,
 * a case of gears at least a cup. Fuel is no fluid of a change. From memory; deliberately wide.
 */
const AMOUNT = { least: 8e-6, caseLeast: 80e-6, most: 9e-3 };
const CASE = /engine|motor|gear|transmission|primary|crank|final|bevel|shaft|cool|fork/i;
const FUEL = /fuel|petrol|gasoline|diesel/i;
/** Times a change that a dry case may take, dimensionless: coolers and second chambers keep much of the old oil. */
const MOST_DRY = 3;

export function fluidFindings(machine: Sources, path: string, fluid: Fluid): readonly Finding[] {
  const amount = saidValue<Quantity>(machine, fluid.amount)!;
  const dry = saidValue<Quantity>(machine, fluid.dry);
  const space = saidValue<Quantity>(machine, fluid.space);
  const out: Finding[] = [];
  const show = (of: Quantity) =>
    printRangeBoth({ low: { kind: 'volume', si: of.low }, high: { kind: 'volume', si: of.high } });
  const add = (level: Finding['level'], at: string, what: string, why: string) => {
    const lookUp = 'Look up the amount, its unit, and whether it is for a change or a dry case';
    out.push({ level, topic: 'fluid', path: `${path}.${at}.is`, what, why, lookUp });
  };
  for (const [at, of] of [
    ['amount', amount],
    ['dry', dry],
  ] as const) {
    if (of === null) continue;
    if (space && of.low > space.high)
      add('impossible', at, 'more goes in than the case holds', `${show(of)} into ${show(space)}`);
    else if (space && of.high > space.high * 1.02)
      add('danger', at, 'the high end is more than the case holds', `${show(of)} into ${show(space)}`);
    else if (space && of.high < space.low * LEAST_FILL) {
      const why = `${show(of)} is ${say((100 * of.high) / space.low)} % of ${show(space)}`;
      add('doubt', at, 'so little hardly wets the case', why);
    }
    const least = CASE.test(fluid.name) ? AMOUNT.caseLeast : AMOUNT.least;
    if (out.length === 0 && !FUEL.test(fluid.name)) {
      const usual = `${show({ ...of, low: least, high: AMOUNT.most })} are met with`;
      if (of.high < least) add('doubt', at, 'so little hardly wets it', `${show(of)}, where ${usual}`);
      if (of.low > AMOUNT.most) add('doubt', at, 'so much goes into no case', `${show(of)}, where ${usual}`);
    }
    if (of.high > 2.5 * of.low) add('doubt', at, 'the range is very wide', show(of));
  }
  if (dry && amount.low > dry.high)
    add('impossible', 'dry', 'a change takes more than the dry case', `${show(amount)} against ${show(dry)}`);
  if (dry && out.length === 0 && dry.low > MOST_DRY * amount.high)
    add('doubt', 'dry', 'the dry case takes far more than a change', `${show(dry)} against ${show(amount)}`);
  return out;
}
