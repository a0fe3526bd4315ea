/**
 * Wrong entries for what the bench asks, by the number of the trap each walks into, with the words it must be caught by.
 * Common practice, no source.
 */
import type { Locator, Page } from 'playwright-core';
import { choose, type Hand } from './bench-player.ts';

interface Snare {
  readonly trap: number;
  /** Title of what is asked. */
  readonly asked: RegExp;
  /** Words of the step; any where left out. */
  readonly step?: RegExp;
  /** Texts by label and choices by group; empty for a signature with nothing looked at. */
  readonly enter: Readonly<Record<string, string>>;
  /** Whether everything to be looked at is ticked. */
  readonly looks: boolean;
  readonly caught: RegExp;
}

const row = (odd: string) => [odd, ...Array.from({ length: 9 }, () => '1 1/4 in')].join(', ');
const DRAIN = {
  'Full scale': '60 N·m',
  'Threads as they are': 'dry plain steel',
  'The wrench is set to': '17.5 lbf·ft',
};

const SNARES: readonly Snare[] = [
  { trap: 1, asked: /by hole/, enter: { 'Length of each': row('1 3/4 in') }, looks: true, caught: /bottoms/ },
  {
    trap: 2,
    asked: /by hole/,
    enter: { 'Length of each': row('7/8 in') },
    looks: true,
    caught: /of thread|no full thread/,
  },
  { trap: 3, asked: /clean and dry/, enter: {}, looks: false, caught: /Not ticked yet: blown out/i },
  {
    trap: 5,
    asked: /^Sign/,
    step: /drain plug/,
    enter: { ...DRAIN, 'The wrench is set to': '17.5 lbf·in' },
    looks: true,
    caught: /lbf·ft meant/,
  },
  {
    trap: 6,
    asked: /^Sign/,
    step: /footrest/,
    enter: { ...DRAIN, 'The wrench is set to': '27.5 lbf·ft', 'Threads as they are': 'machine oil' },
    looks: true,
    caught: /machine oil/,
  },
  {
    trap: 7,
    asked: /^Sign/,
    step: /drain plug/,
    enter: { ...DRAIN, 'Full scale': '300 N·m' },
    looks: true,
    caught: /full scale|smaller wrench|20 %/,
  },
  {
    trap: 8,
    asked: /^Sign/,
    step: /drain plug/,
    enter: { ...DRAIN, 'Adapter, drive': '4 in', 'Middle of the grip': '10 in' },
    looks: true,
    caught: /is wanted/,
  },
  {
    trap: 9,
    asked: /^Sign/,
    step: /shoe's nut/,
    enter: { ...DRAIN, 'Torque that turns it': '', 'The wrench is set to': '25 lbf·ft' },
    looks: true,
    caught: /before it seats: nothing is entered/,
  },
  {
    trap: 10,
    asked: /^Thread locker: low/,
    enter: { Temperature: '20 °C', 'Thread locker that goes on': 'high' },
    looks: true,
    caught: /high-strength locker/,
  },
  {
    trap: 11,
    asked: /^Thread locker/,
    enter: {},
    looks: false,
    caught: /Not ticked yet: both threads clean and dry/i,
  },
  {
    trap: 12,
    asked: /^Slack of .* at the tight/,
    enter: { 'Slack at each': '22, 20, 18, 19, 21, 22 mm', 'Pitches pulled': '16', Temperature: '80 °C' },
    looks: true,
    caught: /cold one/,
  },
  {
    trap: 14,
    asked: /^As built: shims/,
    enter: { Thickness: '60, 30 thou' },
    looks: true,
    caught: /turned round/,
  },
  { trap: 15, asked: /^Magnets/, enter: {}, looks: false, caught: /Not ticked yet: each magnet looked at/i },
  {
    trap: 16,
    asked: /what went in/,
    enter: { 'How much': '600 ml', 'The level': 'right' },
    looks: true,
    caught: /upright/,
  },
  {
    trap: 18,
    asked: /^The wire retainer/,
    enter: {},
    looks: false,
    caught: /Not ticked yet: the wire clears/i,
  },
  {
    trap: 19,
    asked: /^The bead/,
    enter: { Temperature: '20 °C', Cure: 'neutral' },
    looks: false,
    caught: /Not ticked yet: a thin bead/i,
  },
  {
    trap: 20,
    asked: /^New, not used/,
    enter: { '*': 'the old one again' },
    looks: true,
    caught: /used again/,
  },
];

/**
 * 13: the slack is measured and signed before the nut is; once the nut is signed, that measurement no longer counts.
 */
async function measureTooEarly(
  page: Page,
  title: string,
  step: string,
  hand: Hand,
  caught: Set<number>,
): Promise<void> {
  if (caught.has(13) || !/shoe's nut/.test(step)) return;
  const again = page.locator('.bench-ask', { has: page.getByRole('heading', { name: /once more/ }) });
  if (/^Sign/.test(title)) {
    await hand.type(again.getByLabel('Slack at the tight spot'), '18 mm');
    await hand.press(again.getByRole('button', { name: /^Sign:/ }));
    await again.getByRole('button', { name: /^Sign anew/ }).waitFor();
    return;
  }
  if (!/once more/.test(title)) return;
  await again.getByText('The nut was signed after this measurement').waitFor();
  if ((await page.getByRole('button', { name: 'Done', exact: true }).count()) > 0)
    throw new Error('the slack was measured before the nut was tight, and the step is free all the same');
  caught.add(13);
}

/** Walks into every trap that this ask has and that is not in `caught` yet, and adds those that were caught. */
export async function walkInto(
  page: Page,
  ask: Locator,
  title: string,
  step: string,
  hand: Hand,
  caught: Set<number>,
): Promise<void> {
  await measureTooEarly(page, title, step, hand, caught);
  // Those with nothing looked at first: what is ticked once stays so.
  for (const snare of SNARES.toSorted((a, b) => Number(a.looks) - Number(b.looks))) {
    if (caught.has(snare.trap) || !snare.asked.test(title) || (snare.step && !snare.step.test(step)))
      continue;
    const looks = ask.locator('.toggles button[aria-pressed=false]');
    if (snare.looks) while ((await looks.count()) > 0) await hand.press(looks.first());
    for (const [field, text] of Object.entries(snare.enter)) {
      const groups =
        field === '*' ? ask.getByRole('radiogroup') : ask.getByRole('radiogroup', { name: field });
      for (const group of await groups.all()) await choose(group, text, hand);
      if ((await groups.count()) === 0) await hand.type(ask.getByLabel(field).first(), text);
    }
    await hand.press(ask.getByRole('button', { name: /^Sign:/ }));
    const said = (await ask.textContent()) ?? '';
    if (!snare.caught.test(said)) throw new Error(`trap ${snare.trap} at “${title}” was not caught: ${said}`);
    // What was caught is not signed, and the step cannot be ticked.
    if ((await page.getByRole('button', { name: 'Done', exact: true }).count()) > 0)
      throw new Error(`trap ${snare.trap} at “${title}” was caught and the step is free all the same`);
    caught.add(snare.trap);
    if (snare.trap === 6)
      await choose(ask.getByRole('radiogroup', { name: 'Threads as they are' }), 'dry plain steel', hand);
    for (const field of ['Adapter, drive', 'Middle of the grip'])
      if (field in snare.enter) await hand.type(ask.getByLabel(field).first(), '');
  }
}
