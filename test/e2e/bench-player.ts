/**
 * Plays the bench as a careful mechanic would: at each step it looks at what is asked, enters figures that the invented
 * machine's own file calls right, signs, and ticks. By touch, or by the keyboard alone.
 */
import type { Locator, Page } from 'playwright-core';
import { walkInto } from './bench-traps.ts';

const HOUR = '01:00:00';

/**
 * Plays from the step on screen to the last, or until `until` says so after a tick; gives the words of the steps done.
 * Cures are waited for on the page's own clock, which must be installed.
 */
export async function play(
  page: Page,
  hand: Hand,
  tick: (done: Locator) => Promise<void>,
  options: {
    readonly caught?: Set<number>;
    readonly until?: (steps: number) => boolean;
    readonly at?: (step: string) => Promise<void>;
  } = {},
): Promise<readonly string[]> {
  const steps: string[] = [];
  while ((await page.locator('#bench-step').count()) > 0) {
    if (options.until?.(steps.length)) break;
    // The plan that knows of the last tick may begin with another step.
    await page.locator('.bench-place:not([aria-busy=true])').waitFor();
    if (steps.length > 120) throw new Error('the job does not end');
    const head = (await page.locator('#bench-step').textContent()) ?? '';
    await options.at?.(head);
    await signAll(page, hand, options.caught);
    const now = await page.locator('#bench-step').textContent();
    if (now !== head) throw new Error(`the screen went from “${head}” to “${now}” under the hands`);
    const waits = page.locator('[aria-label="What comes first"] .warn');
    for (let hours = 0; (await waits.count()) > 0; hours++) {
      if (hours > 100) throw new Error(`“${head}” waits for ever: ${await waits.allTextContents()}`);
      await page.clock.fastForward(HOUR);
      await page.waitForTimeout(60);
    }
    await tick(page.getByRole('button', { name: /^(Done|Over)/ }).first());
    await page.waitForFunction((old) => document.querySelector('#bench-step')?.textContent !== old, head, {
      timeout: 20_000,
    });
    steps.push(head);
  }
  return steps;
}

/** Sound answers by the title of what is asked; choices by their words, texts by their field. */
const ANSWERS: readonly (readonly [RegExp, Readonly<Record<string, string>>])[] = [
  [/^As found: how the wire runs/, { 'How it runs': 'under the shaft, two clips' }],
  [/^As found: the plug/, { 'What it looks like': 'one pin brown' }],
  [/^As found: shims/, { Thickness: '30, 60 thou' }],
  [/^As built: shims/, { Thickness: '30, 60 thou' }],
  [/^As found: .* by hole/, { 'Length of each': '1 1/4 in' }],
  [/^New, not used again/, { '*': 'new' }],
  [/^Thread locker: (\w+)/, { Temperature: '20 °C', 'Thread locker that goes on': '$1' }],
  [/^Thread locker$/, { Temperature: '20 °C', 'Thread locker that goes on': 'medium' }],
  [/^The bead/, { Temperature: '20 °C', Cure: 'neutral' }],
  [/^Slack of .* once more/, { 'Slack at the tight spot': '18 mm' }],
  [
    /^Slack of/,
    { 'Slack at each place': '22, 20, 18, 19, 21, 22 mm', 'Pitches pulled': '16', Temperature: '18 °C' },
  ],
  [/^Insulation/, { Least: 'OL' }],
  [/what went in/, { 'How much': '1.1 l', 'The level': 'right' }],
  [/^Which way/, { 'It is undone': 'anticlockwise', 'Known from': 'the book' }],
];

export interface Hand {
  readonly press: (control: Locator) => Promise<void>;
  readonly type: (field: Locator, text: string) => Promise<void>;
}

/** Lets time go by between two touches, ms. */
export type Pause = (ms: number) => Promise<void>;

/** As it goes by for everybody. */
export const waiting =
  (page: Page): Pause =>
  (ms) =>
    page.waitForTimeout(ms);

/** On the page's own clock, which must be installed and is all that its buttons know: nobody has to wait. */
export const skipping =
  (page: Page): Pause =>
  (ms) =>
    page.clock.fastForward(ms);

/** A finger: no second touch within a quarter of a second. */
export function finger(page: Page, pause: Pause = waiting(page)): Hand {
  return {
    press: async (control) => {
      await pause(280);
      await control.tap();
    },
    type: async (field, text) => {
      await field.fill(text);
    },
  };
}

/** Signs everything the step on screen asks for, first wrongly where `caught` lacks a trap; gives the titles signed. */
export async function signAll(page: Page, hand: Hand, caught?: Set<number>): Promise<readonly string[]> {
  const signed: string[] = [];
  // What is asked comes after the step's words, and the row to turn by with it.
  await page.locator('.bench-turn').waitFor();
  for (let guard = 0; guard < 8; guard++) {
    const open = page.locator('.bench-ask.open').first();
    if ((await open.count()) === 0) return signed;
    const title = ((await open.locator('h2').textContent()) ?? '').replace(/^[◎✓]\s*/, '').trim();
    const step = (await page.locator('#bench-step').textContent()) ?? '';
    // On a slow computer the form comes after its head.
    await open.getByRole('button', { name: /^Sign:/ }).waitFor();
    if (caught) await walkInto(page, open, title, step, hand, caught);
    await answer(open, title, hand);
    await hand.press(open.getByRole('button', { name: /^Sign:/ }));
    await page
      .waitForFunction(
        (text) =>
          ![...document.querySelectorAll('.bench-ask.open h2')].some((head) =>
            head.textContent?.includes(text),
          ),
        title,
        { timeout: 5000 },
      )
      .catch(async () => {
        throw new Error(`“${title}” was not signed: ${await open.textContent()}`);
      });
    signed.push(title);
  }
  throw new Error('the step asks for more than eight things');
}

/** Chooses in a radio group; what is chosen carries a mark in its name. */
export async function choose(group: Locator, value: string, hand: Hand): Promise<void> {
  const plain = value.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  await hand.press(group.getByRole('radio', { name: new RegExp(`^(?:✓ ?)?${plain}$`) }));
}

async function answer(ask: Locator, title: string, hand: Hand): Promise<void> {
  const looks = ask.locator('.toggles button[aria-pressed=false]');
  while ((await looks.count()) > 0) await hand.press(looks.first());
  if (/^Sign: /.test(title)) return signTorque(ask, title, hand);
  const found = ANSWERS.find(([asked]) => asked.test(title));
  if (!found) return;
  const match = found[0].exec(title)!;
  for (const [field, text] of Object.entries(found[1])) {
    const value = text.replace('$1', match[1] ?? '');
    const groups = field === '*' ? ask.getByRole('radiogroup') : ask.getByRole('radiogroup', { name: field });
    for (const group of await groups.all()) await choose(group, value, hand);
    if ((await groups.count()) === 0) await hand.type(ask.getByLabel(field).first(), value);
  }
}

async function signTorque(ask: Locator, title: string, hand: Hand): Promise<void> {
  // "Sign: 12.2 N·m (9 lbf·ft), stage 2 of 2": a wrench of twice that is in its best range.
  const figures = [...title.split('(')[0]!.matchAll(/[\d.]+/g)].map(([text]) => Number(text));
  const highest = Math.max(...figures.slice(0, 2));
  await hand.type(ask.getByLabel('Full scale'), `${Math.ceil(highest * 2)} N·m`);
  const drag = ask.getByLabel('Torque that turns it before it seats');
  if ((await drag.count()) > 0) await hand.type(drag, '0 N·m');
  const threads = ask.getByRole('radiogroup', { name: 'Threads as they are' });
  if ((await threads.locator('[aria-checked=true]').count()) === 0)
    await hand.press(threads.getByRole('radio', { name: /dry plain steel/ }));
  await hand.press(ask.getByRole('button', { name: /^It is set to/ }).first());
}
