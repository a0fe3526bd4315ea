/** Whatever is typed, the room answers with finite figures, a sentence, or a RangeError that names the field. */
import { expect, it } from 'vitest';
import {
  centreDistance,
  pitchDiameter,
  pitchFromDiameter,
  type Teeth,
  tangentLength,
  teethFromDiameter,
  tipGap,
  usualLength,
  wraps,
} from '../../src/drive/chain.ts';
import { chooseShims } from '../../src/drive/choose-shims.ts';
import { coverOf } from '../../src/drive/cover.ts';
import { riseUntilTaut, slackWhenCold, slackWhenHot } from '../../src/drive/heat.ts';
import { chooseLength, lengthForFixedCentre } from '../../src/drive/length.ts';
import { polygonEffect } from '../../src/drive/polygon.ts';
import { coldRecord, settingFor } from '../../src/drive/setting.ts';
import { shimForAlignment, shimForEndPlay } from '../../src/drive/shim.ts';
import { offsetFromTravel, shoeTravel, slackAfterTravel } from '../../src/drive/shoe.ts';
import { centreForSlack, slackAtCentre, slackOfChain, slackSwing } from '../../src/drive/slack.ts';
import { stackUp, toleranceLeft } from '../../src/drive/stack-up.ts';
import { surveySlack } from '../../src/drive/tight-spot.ts';
import { judgeWear } from '../../src/drive/wear.ts';
import { openStream, type Stream } from '../../src/numbers/random.ts';

const ODD = [0, -0, -1, 1e-300, 1e-12, 1e12, 1e300, Number.NaN, Number.POSITIVE_INFINITY];

function drawer(stream: Stream) {
  const odd = (one: number) => (stream() < 0.06 ? ODD[Math.floor(stream() * ODD.length)]! : one);
  return {
    length: (most: number) => odd(stream() * most),
    whole: (most: number) => odd(Math.floor(stream() * most)),
  };
}

/** Everything in an answer that is a number is finite, and no sentence shows NaN or Infinity. */
function complaint(answer: unknown): string | null {
  if (typeof answer === 'number') return Number.isFinite(answer) ? null : `${answer}`;
  if (typeof answer === 'string') return /NaN|Infinity|undefined/.test(answer) ? answer : null;
  if (typeof answer !== 'object' || answer === null) return null;
  for (const [key, value] of Object.entries(answer)) {
    const inside = complaint(value);
    if (inside !== null) return `${key}: ${inside}`;
  }
  return null;
}

it('never shows NaN, on 6000 drawn sets of input with nonsense among them', () => {
  const stream = openStream(61);
  const { length, whole } = drawer(stream);
  const seen = { answered: 0, refused: 0, thrown: 0 };
  for (let run = 0; run < 6000; run++) {
    const teeth: Teeth = [6 + whole(40), 6 + whole(60)];
    const drive = { pitch: length(0.03), teeth, centre: length(1) };
    const [span, slack, other] = [length(1), length(0.1), length(0.1)];
    const readings = Array.from({ length: 1 + Math.floor(stream() * 8) }, () =>
      stream() < 0.9 ? { slack: length(0.05), turned: length(100) } : { slack: length(0.05) },
    );
    const loop = { teeth, links: 10 + whole(120) };
    const heat = { centre: length(1), span: length(0.5), caseRise: length(120) };
    const shoe = { offset: length(0.03), span, left: length(0.05) };
    const sizes = Array.from({ length: Math.floor(stream() * 5) }, () => ({
      thickness: length(0.003),
      count: whole(4),
    }));
    const calls: readonly (() => unknown)[] = [
      () => [pitchDiameter(drive.pitch, teeth[0]), pitchFromDiameter(length(1), teeth[1])],
      () => teethFromDiameter(drive.pitch, length(0.5)),
      () => [tangentLength(drive), usualLength(drive), tipGap(drive), wraps(drive)],
      () => centreDistance(drive.pitch, teeth, whole(200)),
      () =>
        chooseLength({ ...drive, reach: { low: drive.centre, high: drive.centre + 0.02 }, halfLink: true }),
      () => lengthForFixedCentre(drive, false),
      () => [slackOfChain(drive, whole(200)), centreForSlack(drive, slack, other)],
      () => slackAtCentre(drive, slack, length(1)),
      () => slackSwing(slack, span, [length(0.001)]),
      () => [shoeTravel(shoe, slack, other), slackAfterTravel(shoe, slack, length(0.02) - 0.01)],
      () => offsetFromTravel(span, slack, other, length(0.01)),
      () => [slackWhenHot(slack, heat), slackWhenCold(slack, heat), riseUntilTaut(slack, heat)],
      () =>
        judgeWear(
          { pitch: drive.pitch, pitches: whole(20), length: length(0.3), error: length(0.001) },
          teeth,
          true,
        ),
      () => polygonEffect(teeth[0]),
      () => coverOf([0, length(100), length(100)], loop),
      () => surveySlack(readings, loop),
      () => settingFor({ readings, book: { low: slack, high: slack + 0.01 }, span }),
      () => coldRecord(length(400), length(300)),
      () => [
        shimForAlignment(length(0.002), length(0.002) - 0.001, length(0.0002)),
        shimForEndPlay(length(0.003), { low: length(0.001), high: 0.001 }),
      ],
      () => chooseShims(sizes, { low: slack, high: slack + 0.0002, target: slack + 0.0001 }, whole(6)),
      () => [
        stackUp([{ share: 1, nominal: length(1), tolerance: length(0.001) }]),
        toleranceLeft([], length(2), slack, 'rss'),
      ],
    ];
    const call = calls[run % calls.length]!;
    try {
      const answer = call();
      expect(complaint(answer)).toBeNull();
      if (typeof answer === 'object' && answer !== null && 'ok' in answer && !answer.ok) seen.refused += 1;
      else seen.answered += 1;
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      // Name, rule, value.
      expect(error.message).toMatch(/^[\w[\].\s]+ must .*got /);
      seen.thrown += 1;
    }
  }
  expect(Math.min(seen.answered, seen.refused, seen.thrown)).toBeGreaterThan(300);
});
