/** A verdict as a page of text for people. */

import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import { KINDS, SET_UP_MINUTES, SET_UP_WORDS, setUpsOf } from '../reading/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import { readKey, type Value } from '../reading/key.ts';
import { howTo } from '../reading/steps.ts';
import type { Answer, Band, Evidence, NextReading, SoundShows } from '../verdict/answer.ts';
import { wrap } from './table.ts';

const MOST_SETS = 6;
/** Below this a set or a repair is not worth a line. */
const LEAST = 0.01;

/** Writes the answer; `sound` says what a sound bike of this kind shows. */
export function writeAnswer(
  title: string,
  evidence: Evidence,
  answer: Answer,
  sound: (key: string) => SoundShows,
): string {
  const taken = Object.entries(evidence.readings);
  const lines: string[] = [title, ''];
  if (answer.misfit)
    lines.push(
      wrap(
        'These readings do not fit this machine file or the set-up, and no single slip explains them: do not buy parts on them. Look at which machine it is, at engine speed, lights, heat and plug, and at the units (mV or V, AC or DC).',
        0,
      ),
      '',
    );
  if (taken.length > 0) {
    lines.push('Readings, beside what a sound bike of this kind shows:');
    for (const [key, value] of taken) {
      const again = evidence.again.includes(key) ? ', taken twice' : '';
      const alone = answer.unchecked.includes(key) ? ', nothing else checks it' : '';
      lines.push(`  ${key}: ${showValue(key, value)}  [${showSound(key, sound(key))}]${again}${alone}`);
    }
    lines.push('');
  }
  lines.push('What is wrong:');
  for (const set of answer.sets.filter((one, n) => n === 0 || one.probability >= LEAST).slice(0, MOST_SETS)) {
    const what = set.faults.length === 0 ? 'nothing' : set.faults.map((id) => FAULTS[id].title).join(' + ');
    lines.push(`  ${percent(set.probability)}  ${what}`);
  }
  lines.push(`  ${percent(answer.noneOfThese)}  none of the faults known here`);
  if (answer.beyondThree >= LEAST)
    lines.push(`  ${percent(answer.beyondThree)}  at most, more than three faults at once`);
  lines.push('', 'Repairs, with what the advice saves on average and the chance at which it would turn:');
  const repairs = answer.repairs.filter((one) => one.worthDoing || one.whileOpen || one.probability >= LEAST);
  if (repairs.length === 0) lines.push('  none');
  // On readings that nothing explains no part is bought.
  const explained = !answer.misfit && answer.noneOfThese <= 0.5;
  for (const { repair, probability, worthDoing, whileOpen, saves, turnsAt } of repairs) {
    // "also": not called dead, but cheap while its cover is off.
    const advice = !explained ? 'leave' : worthDoing ? 'do   ' : whileOpen ? 'also ' : 'leave';
    const gain = explained && saves >= 1 ? `saves ${whole(saves)} min, ` : '';
    lines.push(
      `  ${percent(probability)}  ${advice}  ${REPAIRS[repair].title} (${gain}turns at ${percent(turnsAt).trim()})`,
    );
  }
  if (answer.doubtful.length > 0) {
    lines.push('', 'Readings to doubt:');
    for (const { key, probability, mistake, meant } of answer.doubtful) {
      const instead = meant === null ? '' : `; ${showValue(key, meant)} was probably meant`;
      lines.push(
        `  ${percent(probability)}  ${key}: ${mistake.replace(/^ten times out$/, 'out by a factor of ten')}${instead}`,
      );
    }
  }
  lines.push('', ...next(answer.next, sound));
  if (answer.next && answer.alternatives.length > 0) {
    lines.push('', 'Or, nearly as good:');
    for (const { key, minutes } of answer.alternatives.slice(0, 3)) {
      lines.push(`  ${key}: ${describe(key)} (${whole(minutes)} min)`);
    }
  }
  return `${lines.join('\n')}\n`;
}

function next(reading: NextReading | null, sound: (key: string) => SoundShows): string[] {
  if (reading === null)
    return ['Next reading: none is worth its minutes any more; act on the repairs marked "do".'];
  const key = readKey(reading.key);
  const lines = [
    `Next reading: ${reading.key}`,
    `  ${describe(reading.key)}, ${whole(reading.minutes)} min`,
    wrap(reading.why, 2),
    `  A sound bike shows ${showSound(reading.key, sound(reading.key))}.`,
  ];
  if (key) {
    const setUps = setUpsOf(key).map((one) => `${SET_UP_WORDS[one]} (${SET_UP_MINUTES[one]} min, once)`);
    if (setUps.length > 0) lines.push(`  First ${setUps.join(' and ')}.`);
    const kind = KINDS[key.kind];
    for (const [n, step] of (kind ? howTo(kind) : []).entries()) {
      lines.push(wrap(`${n + 1}. ${step}`, 4));
    }
  }
  if (reading.branches.length > 0) lines.push('  What each answer would change:');
  for (const { answer, probability, moves } of reading.branches) {
    const changes = moves
      .map(({ member, from, to }) => `${member} ${percent(from).trim()} → ${percent(to).trim()}`)
      .join(', ');
    lines.push(`  ${percent(probability)}  ${answer}${changes === '' ? '' : `: ${changes}`}`);
  }
  return lines;
}

function describe(text: string): string {
  const key = readKey(text);
  return key ? describeReading(key) : text;
}

/** Six wide: "  81 %", " < 1 %", "> 99 %". */
export function percent(probability: number): string {
  const hundred = probability * 100;
  if (hundred < 1) return (hundred === 0 ? '0 %' : '< 1 %').padStart(6);
  return (hundred > 99 && hundred < 100 ? '> 99 %' : `${Math.round(hundred)} %`).padStart(6);
}

function whole(minutes: number): string {
  return String(Math.round(minutes));
}

/** A value with its kind's unit. */
export function showValue(key: string, value: Value): string {
  const kind = KINDS[readKey(key)?.kind ?? ''];
  if (value === null) return 'OL';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const text = String(Number(value.toPrecision(4))).replace('-', '−');
  return !kind || kind.unit === 'SG' || kind.unit === 'seen' ? text : `${text} ${kind.unit}`;
}

/** What a sound bike shows: a band, OL, or a share of each. */
export function showSound(key: string, shows: SoundShows): string {
  const kind = KINDS[readKey(key)?.kind ?? ''];
  if (kind?.unit === 'seen') return 'mostly no';
  if (shows.band === null) return 'OL';
  const band = showBand(shows.band, kind?.unit ?? '');
  return shows.openShare > 0.05 ? `${band}, or OL` : band;
}

function showBand({ low, high }: Band, unit: string): string {
  const size = Math.max(Math.abs(low), Math.abs(high));
  const decimals = unit === 'SG' ? 3 : size >= 100 ? 0 : size >= 30 ? 1 : size >= 1 ? 2 : 3;
  const show = (value: number) => String(Number(value.toFixed(decimals))).replace('-', '−');
  const joint = low < 0 ? ' to ' : '–';
  return `${show(low)}${joint}${show(high)}${unit === 'SG' || unit === '' ? '' : ` ${unit}`}`;
}
