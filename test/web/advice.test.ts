/** What the verdict says: the head agrees with the list of repairs, and figures come out as words. */
import { describe, expect, test } from 'vitest';
import { REPAIR_IDS } from '../../src/fault/repairs.ts';
import { MISTAKES } from '../../src/reading/mistakes.ts';
import type { Answer, FaultSet, RepairLine } from '../../src/verdict/answer.ts';
import { advisedLines, isExplained } from '../../src/web/advised.ts';
import { readChance, roughly } from '../../src/web/chance-entry.ts';
import { readRoute, stationOf, writeRoute } from '../../src/web/route.ts';
import { effectSize, minuteWords, savesWords, turnsWords } from '../../src/web/words/advice.ts';
import { deadWords, leadOf } from '../../src/web/words/lead.ts';
import { mistakeWords } from '../../src/web/words/mistakes.ts';

const line = (
  repair: RepairLine['repair'],
  probability: number,
  worthDoing: boolean,
  more: Partial<RepairLine> = {},
): RepairLine => ({ repair, probability, worthDoing, whileOpen: false, saves: 0, turnsAt: 0.5, ...more });
const set = (probability: number, ...faults: FaultSet['faults'][number][]): FaultSet => ({
  faults,
  probability,
});
const answer = (sets: readonly FaultSet[], repairs: readonly RepairLine[], noneOfThese = 0): Answer => ({
  sets,
  suspicion: {} as Answer['suspicion'],
  repairs,
  next: null,
  alternatives: [],
  doubtful: [],
  noneOfThese,
  beyondThree: 0,
  unchecked: [],
  misfit: false,
});

describe('the head of the verdict', () => {
  test('names what the repairs are for, with the chance that all of it is so', () => {
    const lead = leadOf(
      answer(
        [
          set(0.75, 'plug-pin', 'stator-open'),
          set(0.15, 'plug-pin'),
          set(0.1, 'plug-pins', 'stator-open', 'drain'),
        ],
        [line('replace-stator-plug', 1, true), line('replace-stator', 0.8, true)],
      ),
    );
    expect(lead).toEqual({
      opening: 'Very likely',
      what: 'one burnt pin in the stator plug and stator winding open',
      share: '85\u00a0in\u00a0100',
      only: '75\u00a0in\u00a0100',
    });
  });

  test('a part whose faults nobody can tell apart is named as the part', () => {
    const sets = [set(0.5, 'stator-core-terminal'), set(0.4, 'stator-core-midway')];
    expect(deadWords('replace-stator', sets)).toBe('a dead stator');
  });

  test('never says that there is no answer above a repair to be done', () => {
    // Every repair alone, sure or not, with the likeliest set as small as may be.
    for (const repair of REPAIR_IDS)
      for (const probability of [0.05, 0.15, 0.4, 0.6, 0.99]) {
        const lead = leadOf(answer([set(0.06, 'drain')], [line(repair, probability, true)]));
        expect(lead?.opening).not.toMatch(/No answer/);
      }
  });

  test('without a repair worth doing says so, and calls a sound bike sound', () => {
    const unsure = answer([set(0.3, 'drain'), set(0.2)], [line('find-drain', 0.3, false)]);
    expect(leadOf(unsure)?.opening).toBe('No answer yet; likeliest');
    expect(leadOf(answer([set(0.97)], []))).toMatchObject({
      opening: 'Almost certainly',
      what: 'nothing is wrong with the charging circuit',
    });
    expect(leadOf(answer([set(0.3, 'drain')], [line('find-drain', 0.3, true)], 0.7))).toBeNull();
  });

  test('readings that nothing explains call for no part, whatever the choice among the faults known', () => {
    const strange = answer([set(0.3, 'drain')], [line('find-drain', 0.9, true, { saves: 100 })], 0.7);
    expect(isExplained(strange)).toBe(false);
    expect(advisedLines(strange)).toMatchObject([{ repair: 'find-drain', worthDoing: false, saves: 0 }]);
    expect(advisedLines({ ...strange, noneOfThese: 0.1 })).toBe(strange.repairs);
    expect(leadOf({ ...strange, noneOfThese: 0.1, misfit: true })).toBeNull();
  });

  test('without a repair worth doing, a part with several likely faults is likelier than any one of them', () => {
    const unsure = answer(
      [set(0.2, 'plug-pin'), set(0.18, 'plug-pins'), set(0.19)],
      [line('replace-stator-plug', 0.38, false), line('find-drain', 0.1, false)],
    );
    expect(leadOf(unsure)).toMatchObject({
      opening: 'No answer yet; likeliest',
      what: 'a burnt stator plug',
      share: '38\u00a0in\u00a0100',
    });
  });

  test('what is done only because the cover is off is not called dead', () => {
    const lead = leadOf(
      answer(
        [set(0.8, 'stator-open'), set(0.2, 'stator-open', 'plug-pin')],
        [line('replace-stator', 1, true), line('replace-stator-plug', 0.6, true, { whileOpen: true })],
      ),
    );
    expect(lead?.what).toBe('stator winding open');
  });
});

describe('figures in words', () => {
  test.each([
    [0.4, '1 min'],
    [12.4, '12 min'],
    [43, '45 min'],
    [88, '90 min'],
    [92, '1½ h'],
    [180, '3 h'],
    [270, '4½ h'],
  ])('%f minutes are %s', (minutes, words) =>
    expect(minuteWords(minutes)).toBe(words.replace(' ', '\u00a0')),
  );

  test('what following the advice saves, and what would turn it', () => {
    const doing = line('replace-stator', 0.9, true, { saves: 120, turnsAt: 0.12 });
    expect(savesWords(doing)).toBe('Saves about 2\u00a0h on average against leaving it');
    expect(turnsWords(doing)).toBe('Worth it as long as its chance is above 12\u00a0in\u00a0100');
    const leaving = line('replace-stator', 0.1, false, { saves: 40, turnsAt: 0.55 });
    expect(savesWords(leaving)).toBe('Saves about 40\u00a0min on average against doing it now');
    expect(turnsWords(leaving)).toBe('Worth doing once its chance is above 55\u00a0in\u00a0100');
    expect(savesWords({ ...doing, saves: 0.2 })).toBeNull();
    expect(turnsWords({ ...doing, turnsAt: 0 })).toBe('Worth it at any chance');
    expect(turnsWords({ ...leaving, turnsAt: 1 })).toBe('Not worth it at any chance');
  });

  test('the size of an effect as a word and a bar, the same for and against', () => {
    expect(effectSize(Math.log2(40)).word).toBe('decisive');
    expect(effectSize(-3)).toMatchObject({ word: 'strong', length: effectSize(3).length });
    expect(effectSize(1.5).word).toBe('moderate');
    expect(effectSize(-0.2).word).toBe('slight');
    expect(effectSize(30)).toEqual({ word: 'decisive', length: 1 });
  });
});

describe('mistakes in words', () => {
  test('say which way, by what was noted and what was meant', () => {
    expect(mistakeWords('ten times out', 5.06, 50.6)).toBe('It looks too low by a factor of ten');
    expect(mistakeWords('ten times out', -142, -14.2)).toBe('It looks too high by a factor of ten');
    expect(mistakeWords('ten times out', null, null)).toBe('It looks out by a factor of ten');
  });

  test('every mistake of the catalogue becomes a sentence without its jargon', () => {
    for (const { title } of Object.values(MISTAKES)) {
      const words = mistakeWords(title, 12, null);
      expect(words).toMatch(/^[A-Z]/);
      expect(words).not.toMatch(/ten times out|unknown/);
    }
  });
});

describe('odds typed by hand', () => {
  test.each([
    ['12', 0.12],
    ['0,5', 0.005],
    ['.1', 0.001],
    ['50', 0.5],
    ['12.5 %', 0.125],
    ['7 in 100', 0.07],
  ])('%s is read', (text, chance) => {
    const read = readChance(text);
    expect(read.ok && read.chance).toBeCloseTo(chance, 12);
  });

  test.each([
    ['', /Nothing is typed/],
    ['0.05', /Under 0\.1 in 100/],
    ['0', /Under/],
    ['51', /Above 50 in 100/],
    ['often', /not a number/],
    ['-3', /not a number/],
  ])('“%s” is refused with what would do', (text, why) => {
    const read = readChance(text);
    expect(read.ok ? '' : read.why).toMatch(why);
  });

  test('a guess is shown with no more figures than it has', () => {
    expect([0.0466, 0.1008, 0.0052].map(roughly)).toEqual(['5', '10', '0.5']);
  });

  test('their page has an address of its own and stands under the verdict', () => {
    const here = { at: 'job', job: 'j1', station: 'odds', take: null } as const;
    expect(readRoute(writeRoute(here))).toEqual(here);
    expect(stationOf('odds')).toBe('verdict');
  });
});
