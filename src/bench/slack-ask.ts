/** Chain slack: cold, at several places over a whole turn, at the tight spot; and once more after the nut that holds it. */
import { surveySlack } from '../drive/tight-spot.ts';
import { sayCelsius, sayLength } from '../joint/say.ts';
import { counting } from '../machine/counts.ts';
import type { Machine } from '../machine/definition.ts';
import { field, openEntries } from '../sum/entries.ts';
import { readRow } from '../sum/row.ts';
import type { Texts } from '../sum/sum.ts';
import { type Asking, type AskKind, type Judged, type Look, lacking, sound } from './ask.ts';
import { sayInBoth } from './both-systems.ts';

const KELVIN = 273.15;
/** Above this a chain case is not cold, °C: hand-warm; common practice, no source. */
const COLD_MOST = 35;
/** What a rule cannot tell, m: common practice, no source. */
const RULE = 0.0005;

type Chain = NonNullable<Machine['chains']>[string];

function chainOf({ machine, place }: Asking): Chain | null {
  const id = place.step?.chain ?? null;
  return id === null ? null : (machine.chains?.[id] ?? null);
}

function wantedOf(
  { machine, fresh }: Asking,
  chain: Chain,
): { low: number; high: number; text: string } | null {
  return chain.slack === null ? null : counting(machine, chain.slack, fresh).is;
}

const PLACES = [
  field('readings', 'Slack at each place, commas between', 'list', 'must', '20, 18, 17, 19, 21 mm'),
  field('step', 'Pitches pulled past between two places', 'text', 'must', '16'),
  field('temperature', 'Temperature of the case', 'temperature', 'must', '18 °C'),
];
const LOOKS: readonly Look[] = [{ id: 'whole', words: 'Once round the whole chain' }];

/** Trap of the slack set hot, or not at the tight spot. */
export const SLACK_ASK: AskKind = {
  ask: (asking) => {
    const chain = chainOf(asking);
    if (!chain || asking.place.step?.kind !== 'measure') return null;
    const wanted = wantedOf(asking, chain);
    return {
      id: 'slack',
      title: `Slack of the ${chain.name}${wanted ? `: ${sayInBoth('length', wanted)} at the tight spot` : ''}`,
      why: 'A chain is tighter at one place than at all others, and tighter hot than cold: set there and cold, or it is taut on the road.',
      looks: LOOKS,
      fields: PLACES,
    };
  },
  judge: (asking, texts, yes) => {
    const read = openEntries(PLACES, texts);
    read.demand('readings', 'step', 'temperature');
    const slacks = readRow(read, 'readings', 'length', { least: 0, most: 0.5 }, 'is no slack of a chain', 60);
    const step = read.whole('step', 1, 400);
    const kelvin = read.one('temperature', { least: KELVIN - 40, most: KELVIN + 150 });
    const bad = lacking(LOOKS, yes, read.refused());
    if (bad) return bad;
    if (!slacks || step === null || kelvin === null)
      throw new RangeError('a field must be read or blamed, got neither');
    const chain = chainOf(asking)!;
    const loop = loopOf(asking, chain);
    const readings = slacks.map((slack, n) => ({ slack, turned: n * step }));
    const survey = loop ? surveySlack(readings, loop) : surveySlack(readings);
    // How fine the places lie, and the pattern of teeth and links, is advice; a turn not covered is not.
    const wanting = survey.says.filter((says) => !/pitches apart|same teeth meet/.test(says));
    const hot = chain.slackWhen !== 'hot' && kelvin - KELVIN > COLD_MOST;
    return sound(
      { slackM: slacks, temperatureK: kelvin, leastM: survey.least },
      [
        `The tight spot is place ${survey.tightest + 1}: ${sayLength(survey.least)}.`,
        ...survey.says.filter((says) => !wanting.includes(says)),
      ],
      [
        ...rangeStop(asking, chain, survey.least),
        ...(hot
          ? [
              `The case is at ${sayCelsius(kelvin - KELVIN)}: the figure is for a cold one. Let it cool and measure again.`,
            ]
          : []),
        ...wanting,
      ],
    );
  },
};

function loopOf({ machine, fresh }: Asking, chain: Chain) {
  const { drivingTeeth, drivenTeeth, links } = chain;
  if (!drivingTeeth || !drivenTeeth || !links) return null;
  const value = (said: typeof drivingTeeth): number => counting(machine, said, fresh).is;
  return { teeth: [value(drivingTeeth), value(drivenTeeth)] as const, links: value(links) };
}

function rangeStop(asking: Asking, chain: Chain, least: number): readonly string[] {
  const wanted = wantedOf(asking, chain);
  if (!wanted || (least >= wanted.low - RULE && least <= wanted.high + RULE)) return [];
  return [
    `At the tight spot it is ${sayLength(least)}, and ${sayInBoth('length', wanted)} is wanted: ${least < wanted.low ? 'loosen' : 'tighten'} it and measure again.`,
  ];
}

const AGAIN = [field('again', 'Slack at the tight spot, the nut tight', 'length', 'must', '18 mm')];

/** Trap of the nut that moves what it holds: the last measurement comes after it. */
export const SLACK_AGAIN_ASK: AskKind = {
  ask: (asking) => {
    const chain = chainOf(asking);
    if (!chain || asking.place.step?.kind !== 'torque') return null;
    return {
      id: 'slack-again',
      title: `Slack of the ${chain.name} once more`,
      why: 'Tightening the nut moves the shoe: what was measured before it does not count.',
      looks: [],
      fields: AGAIN,
    };
  },
  judge: judgeAgain,
};

function judgeAgain(asking: Asking, texts: Texts): Judged {
  const read = openEntries(AGAIN, texts);
  read.demand('again');
  const slack = read.one('again', { least: 0, most: 0.5 });
  const bad = lacking([], [], read.refused());
  if (bad) return bad;
  return sound({ slackM: slack! }, [], rangeStop(asking, chainOf(asking)!, slack!));
}
