/**
 * Chapters as three texts: WebVTT for players, ffmetadata for ffmpeg, plain times to paste under a film.
 *
 * What each can hold: a WebVTT cue has no blank line and no `-->`, so new lines become spaces there and `>` is written
 * as a character reference (W3C WebVTT, "WebVTT cue text"). ffmetadata holds any letters, also a new line, once `=`, `;`,
 * `#`, `\` and the new line have a backslash before them (ffmpeg-formats, "Metadata"); it cannot hold NUL, ffmpeg drops
 * a title that is empty, and ffmpeg 5.1 takes a new line after any backslash for a part of the title, also after one that has
 * its own backslash: a title that ends in a backslash gets a space behind it. Plain times count whole seconds and know no clap. Control characters become spaces in all three.
 */
import type { ClipChapters } from './chapters.ts';

export const CHAPTER_FORMS = ['vtt', 'ffmetadata', 'plain'] as const;
export type ChapterForm = (typeof CHAPTER_FORMS)[number];

/** What a title becomes that has no letter left. */
const UNTITLED = '–';

export function chapterText(clip: ClipChapters, form: ChapterForm): string {
  return { vtt: vttChapters, ffmetadata: ffmetadataChapters, plain: plainChapters }[form](clip);
}

/** Chapters as WebVTT. Claps and what is uncertain stand in notes, which players leave out. */
export function vttChapters({ chapters, claps, says }: ClipChapters): string {
  const notes = [...claps.map(({ number, at }) => `Clap ${number} at ${vttTime(at)}`), ...says].map(
    (words) => `NOTE ${escapeVtt(oneLine(words))}\n\n`,
  );
  // A cue ends after it begins; a clip without length has one all the same.
  const cues = chapters.map(
    ({ from, to, title }) =>
      `${vttTime(from)} --> ${vttTime(Math.max(to, from + 1))}\n${escapeVtt(oneLine(title))}\n`,
  );
  return `WEBVTT\n\n${notes.join('')}${cues.join('\n')}`;
}

/** Chapters as ffmetadata: `ffmpeg -i film.mp4 -i clip-01.ffmetadata -map_metadata 1 -map_chapters 1 -c copy out.mp4`. */
export function ffmetadataChapters({ chapters, claps, says }: ClipChapters): string {
  const notes = [...claps.map(({ number, at }) => `Clap ${number} at ${vttTime(at)}`), ...says].map(
    (words) => `; ${oneLine(words)}\n`,
  );
  const sections = chapters.map(
    ({ from, to, title }) =>
      `[CHAPTER]\nTIMEBASE=1/1000\nSTART=${from}\nEND=${Math.max(to, from + 1)}\ntitle=${escapeFfmetadata(title)}\n`,
  );
  return `;FFMETADATA1\n${notes.join('')}${sections.join('')}`;
}

/** A line a chapter: "0:00 Take the cover off". */
export function plainChapters({ chapters }: ClipChapters): string {
  return chapters.map(({ from, title }) => `${clockTime(from)} ${oneLine(title)}\n`).join('');
}

/** A title as ffmetadata writes it. */
export function escapeFfmetadata(title: string): string {
  const plain = cleaned(title.replace(/\r\n?/g, '\n'));
  const kept = plain.trim() === '' ? UNTITLED : plain;
  return `${kept.replace(/[=;#\\\n]/g, '\\$&')}${kept.endsWith('\\') ? ' ' : ''}`;
}

function escapeVtt(line: string): string {
  return line.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** Without control characters but for the new line, and without half letters. */
function cleaned(text: string): string {
  return text.replace(/(?!\n)\p{Cc}|\p{Cs}/gu, ' ');
}

function oneLine(text: string): string {
  const line = cleaned(text).replace(/\s+/gu, ' ').trim();
  return line === '' ? UNTITLED : line;
}

/** "0:00", "12:05", "1:02:03" for ms. */
export function clockTime(ms: number): string {
  const all = Math.floor(ms / 1000);
  const [hours, minutes, seconds] = [Math.floor(all / 3600), Math.floor(all / 60) % 60, all % 60];
  const two = (value: number) => String(value).padStart(2, '0');
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds)}` : `${minutes}:${two(seconds)}`;
}

/** "00:00:00.000" for ms. */
function vttTime(ms: number): string {
  const all = Math.floor(ms / 1000);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(all / 3600))}:${two(Math.floor(all / 60) % 60)}:${two(all % 60)}.${String(ms % 1000).padStart(3, '0')}`;
}
