/**
 * The page of readings for people: every kind of the catalogue with what it is for, its steps with the cautions first,
 * where the tips go, what a sound bike shows and how it goes wrong. Markdown, with its drawings; published as
 * docs/readings.md and docs/readings.
 */
import { drawReadingLoop } from '../draw/reading-loop.ts';
import type { SvgNode } from '../draw/svg.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import type { Machine } from '../machine/definition.ts';
import { completeKey, KINDS, SEEN, SET_UP_MINUTES, SET_UP_WORDS, setUpsOf } from '../reading/catalogue.ts';
import { sayHow } from '../reading/cautions.ts';
import { describeReading } from '../reading/describe.ts';
import { type ReadingKey, readKey, writeKey } from '../reading/key.ts';
import type { Kind, Tool } from '../reading/kinds.ts';
import { elsewhereOf, mistakesFor } from '../reading/mistakes.ts';
import { meterScatter } from '../reading/noise.ts';
import { offeredKeys } from '../reading/offers.ts';
import { PURPOSES } from '../reading/purpose.ts';
import { roundFigure } from '../reading/say-value.ts';
import { type Assessor, openAssessor } from '../verdict/assess.ts';
import { bandWords } from '../verdict/say-sound.ts';

const TOOL_WORDS: Readonly<Record<Tool, string>> = {
  multimeter: 'multimeter',
  'clamp-meter': 'clamp meter',
  'load-tester': 'battery load tester',
  hydrometer: 'hydrometer',
  eyes: 'eyes and nose',
  supply: 'current-limited supply and multimeter',
};

/** Headings of the page, and which kinds stand under each. */
const GROUPS: readonly { readonly title: string; readonly has: (kind: Kind) => boolean }[] = [
  { title: 'Look first', has: ({ unit }) => unit === 'seen' },
  { title: 'Engine off, nothing unplugged', has: isStill },
  { title: 'On the starter', has: ({ engine }) => engine === 'cranking' },
  { title: 'Engine running, all plugged in', has: (kind) => kind.engine === 'running' && !isUnplugged(kind) },
  { title: 'Stator or regulator unplugged', has: isUnplugged },
];

/** States shown for kinds whose usual state alone tells too little; each is a key without its kind. */
const SHOWN: Readonly<Record<string, readonly string[]>> = {
  rest_volts: ['', 'charged=True'],
  load_test_volts: ['charged=True', ''],
  crank_volts: ['probe=post', 'probe=clamp'],
  drop_term_pos: ['state=crank', 'state=lights'],
  drop_term_neg: ['state=crank', 'state=lights'],
  batt_volts: ['rpm=idle', 'rpm=3000', 'charged=True rpm=3000'],
  reg_volts: ['rpm=idle', 'rpm=3000'],
  batt_amps: ['rpm=idle', 'rpm=3000'],
  alt_amps: ['rpm=idle', 'rpm=3000'],
  stator_ac: ['rpm=idle', 'rpm=3000', 'rpm=3000 temp=hot'],
  pin_case_ac: ['', 'loaded=True'],
  ohms_pair: ['', 'through_plug=True'],
  diode: ['black=pos red=a', 'black=a red=pos', 'black=pos red=neg', 'black=neg red=pos'],
};

function isStill(kind: Kind): boolean {
  return kind.engine === 'off' && kind.unit !== 'seen' && !isUnplugged(kind);
}

function isUnplugged({ id }: Kind): boolean {
  return setUpsOf({ kind: id, state: {} }).includes('unplug-stator');
}

interface Opened {
  readonly machine: Machine;
  readonly spec: ReturnType<typeof chargingSpec>;
  readonly assessor: Assessor;
  readonly kinds: ReadonlySet<string>;
}

function open(machine: Machine): Opened {
  const spec = chargingSpec(machine);
  const keys = offeredKeys({
    phases: spec.alternator.phases,
    senses: spec.regulator.senses,
    flooded: spec.battery.chemistry === 'flooded',
  });
  const kinds = new Set(keys.map((key) => readKey(key)!.kind));
  return { machine, spec, assessor: openAssessor(spec), kinds };
}

export interface ReadingPage {
  readonly text: string;
  /** Drawings by the name of their kind. */
  readonly drawings: ReadonlyMap<string, SvgNode>;
}

/** The page. A reading is shown on the first of these machines on which it can be taken; throws RangeError where on none. */
export function readingPage(machines: readonly Machine[]): ReadingPage {
  const opened = machines.map(open);
  const drawings = new Map<string, SvgNode>();
  const groups = GROUPS.map(({ title, has }) => ({ title, kinds: Object.values(KINDS).filter(has) }));
  const sections = groups.flatMap(({ title, kinds }) => [
    `## ${title}`,
    ...kinds.flatMap((kind) => {
      const on = opened.find((one) => one.kinds.has(kind.id));
      if (!on) throw new RangeError(`readings page: one machine must offer "${kind.id}"`);
      return section(kind, on, drawings);
    }),
  ]);
  return { text: `${[...front(opened[0]!.machine, groups), ...sections].join('\n\n')}\n`, drawings };
}

function front(
  { about }: Machine,
  groups: readonly { readonly title: string; readonly kinds: readonly Kind[] }[],
): readonly string[] {
  const contents = groups.map(
    ({ title, kinds }) => `- ${title}: ${kinds.map((kind) => `[${kind.title}](#${kind.id})`).join(' · ')}`,
  );
  return [
    '# Taking each reading',
    'Every reading the program knows, in the order of the least work. Written from the program by `npm run docs`; do not edit.',
    '> **Caution.** The bike’s own book comes first. What can hurt you stands at the head of each reading: read it before you fetch the meter.',
    contents.join('\n'),
    '## How to read this page',
    [
      `- **A sound bike shows** is reckoned for the ${about.maker} ${about.model}${about.invented ? ', an invented bike' : ''}, unless another is named. 95 of 100 sound bikes of its kind read inside. For your bike, the station Readings shows its own band.`,
      '- **Two honest takes** differ by about as much as is said there, meters and hands together: two times in three it is less. These are figures of cheap meters, from memory.',
      '- **Slips that are looked for**: when a figure goes against all the others, the program weighs these against a real fault. A pen that slips by a factor of ten is looked for everywhere and not repeated. [How sure is sure](how-sure.md) says what becomes of it.',
      '- The loop is drawn with its plug mated. Where a reading wants it unplugged, the tips go on the stator’s own half; for the diode range on the regulator’s.',
      '- What each reading is for, what to watch, the steps and the minutes are common practice, no source.',
      `- The stator is unplugged once for all readings that want it (${SET_UP_MINUTES['unplug-stator']} minutes), the engine brought to heat once (${SET_UP_MINUTES['engine-hot']}), the battery charged once (${SET_UP_MINUTES['battery-charged']} minutes of yours; the charger takes its own time).`,
      '- Beside your figure the screen says “as a sound bike”, “below a sound bike” or “above a sound bike”. That alone accuses nothing: what is wrong is told from all readings together.',
      '- “OL” is what a meter shows when it has no figure to show. It is an answer too: enter it.',
    ].join('\n'),
    '### How a reading was taken',
    'The same reading in another state is another reading. The keys on the screen ask for the state; on the command line it stands behind the name. The first value is meant when nothing is said.',
    [
      '| word | what it says |',
      '|---|---|',
      '| `rpm=3000`, `idle`, `2000`, `5000` | engine speed; any number from 300 to 15000 will do |',
      '| `lights=low`, `off`, `high` | beam |',
      '| `temp=cold`, `hot` | engine and winding at full heat, or not |',
      '| `charged=False`, `True` | whether the battery was charged on the bench first |',
      '| `acc=True`, `False` | the owner’s accessories on or off |',
      '| `wiggle=False`, `True` | whether the harness was moved by hand meanwhile |',
      '| `pair=ab`, `bc`, `ca`; `pin=a`, `b`, `c` | which pins of the stator plug; letter them once and stay with it |',
      '| `through_plug=False`, `True` | at the stator’s own pins, or through the mated plug |',
      '| `loaded=False`, `True` | with 220 Ω across the meter |',
      '| `probe=post`, `clamp`; `state=crank`, `lights`; `cell=1` to `6`; `red=`, `black=` | as the reading says |',
    ].join('\n'),
  ];
}

function section(kind: Kind, on: Opened, drawings: Map<string, SvgNode>): readonly string[] {
  const purpose = PURPOSES[kind.id];
  if (!purpose) throw new RangeError(`readings page: "${kind.id}" must have a purpose`);
  const keys = (SHOWN[kind.id] ?? ['']).map((words) => completeKey(readKey(`${kind.id} ${words}`.trim())!));
  const first = keys[0]!;
  const { cautions, steps } = sayHow(kind, first.state);
  return [
    `<a id="${kind.id}"></a>`,
    `### ${kind.title}`,
    `${TOOL_WORDS[kind.tool].replace(/^./, (c) => c.toUpperCase())} · ${minutesOf(kind.minutes)}${setUp(first)}`,
    ...cautions.map((text) => `> **Caution.** ${text}`),
    `**What it is for.** ${purpose.tells}`,
    steps.map((step, n) => `${n + 1}. ${step}`).join('\n'),
    ...(kind.unit === 'seen' ? [sights()] : []),
    ...picture(kind, first, on, drawings),
    ...sound(kind, keys, on),
    `**What to watch.** ${purpose.watch}`,
    ...errs(kind, first, on),
    `**What it is called.** On screen “${describeReading(first)}”; on the command line \`${writeKey(first)}\`.`,
  ];
}

/** Things to look for, each with its word on the command line. */
function sights(): string {
  return Object.entries(SEEN)
    .map(([word, what]) => `- ${what} (\`${word}\`)`)
    .join('\n');
}

function minutesOf(minutes: number): string {
  return minutes === 1 ? '1 minute' : `${minutes} minutes`;
}

function setUp(key: ReadingKey): string {
  const needs = setUpsOf(key).map((one) => SET_UP_WORDS[one].replace(/ first$/, ''));
  return needs.length === 0 ? '' : ` · first ${needs.join(' and ')}`;
}

function picture(kind: Kind, key: ReadingKey, on: Opened, drawings: Map<string, SvgNode>): readonly string[] {
  const { alternator, regulator, loadsFedFrom } = on.spec;
  const build = {
    phases: alternator.phases,
    regulator: regulator.kind,
    senses: regulator.senses,
    loadsFedFrom,
  };
  const drawing = drawReadingLoop(build, key, bandWords(on.assessor.sound(writeKey(key)), kind.unit));
  if (drawing === null) return [];
  drawings.set(kind.id, drawing);
  return [`![The loop with the meter for: ${describeReading(key)}](readings/${kind.id}.svg)`];
}

function sound(kind: Kind, keys: readonly ReadingKey[], on: Opened): readonly string[] {
  if (kind.unit === 'seen')
    return [
      '**A sound bike shows** mostly none of it. Some is seen on sound bikes too, and is weighed so: dark insulation on one in four, an oily plug on one in five.',
    ];
  const whose = on.kinds.has('sg') ? '' : ` (${on.machine.about.maker} ${on.machine.about.model})`;
  const shown = keys.map((key) => ({
    state: stateOf(key),
    band: bandWords(on.assessor.sound(writeKey(key)), kind.unit).replace('a sound bike: ', ''),
  }));
  const [only, ...others] = shown;
  if (others.length === 0) {
    const when = only!.state === '' ? '' : ` (${only!.state})`;
    return [`**A sound bike shows**${whose} ${only!.band}${when}.`];
  }
  const lines = shown.map(({ state, band }) => `- ${state === '' ? 'as it came' : state}: ${band}`);
  return [`**A sound bike shows**${whose}:`, lines.join('\n')];
}

/** The state in words: what stands behind the colon of its description. */
function stateOf(key: ReadingKey): string {
  const title = KINDS[key.kind]!.title;
  return describeReading(key).slice(title.length).replace(/^: /, '');
}

/** Scatter, and the slips that are looked for at this reading. */
function errs(kind: Kind, key: ReadingKey, on: Opened): readonly string[] {
  if (kind.unit === 'seen') return [];
  const { band } = on.assessor.sound(writeKey(key));
  const middle = band === null ? 0 : (band.low + band.high) / 2;
  const scatter = roundFigure(Number((Math.SQRT2 * meterScatter(key, middle)).toPrecision(1)));
  const unit = kind.unit === 'SG' ? '' : ` ${kind.unit}`;
  const states = new Set(STATES_TAKEN);
  const slips = [
    ...mistakesFor(kind.id, middle).map(({ title }) => title),
    ...elsewhereOf(key, on.spec.alternator.phases, states).map(({ mistake }) => mistake.title),
  ]
    .filter((title) => title !== 'ten times out')
    .map((title) => title.replace(/, it seems$/, ''));
  return [
    ...(band === null ? [] : [`**Two honest takes** differ by about ${scatter}${unit}.`]),
    ...(slips.length === 0 ? [] : [`**Slips that are looked for**: ${[...new Set(slips)].join('; ')}.`]),
  ];
}

/** Engine states in which a garage usually reads: a slip into any of these is looked for. */
const STATES_TAKEN: readonly string[] = ['idle|low|cold|False|True', '3000|low|cold|False|True'];
