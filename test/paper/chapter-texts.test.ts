/** The three forms of chapters, each read back by a reader written from its own grammar; ffmetadata by ffmpeg as well. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockTime, ffmetadataChapters, plainChapters, vttChapters } from '../../src/paper/chapter-texts.ts';
import type { ClipChapters } from '../../src/paper/chapters.ts';
import { readFfmetadata } from './read-ffmetadata.ts';

const FFMPEG = process.env.FFMPEG ?? 'ffmpeg';
const haveFfmpeg = spawnSync(FFMPEG, ['-version']).status === 0;
if (!haveFfmpeg)
  console.warn(
    'NOT RUN THROUGH FFMPEG: it is not on this computer (Debian package ffmpeg). The grammar written in the test still checks every title.',
  );

const NASTY = [
  'a=b;c#d\\e',
  '\\',
  '\\\\n',
  '=;#\\=;#\\',
  'two\nlines',
  'ends with a new line\n',
  '\n\nbegins with two',
  ';a comment?',
  '[CHAPTER]',
  'title=again\nSTART=5',
  'bar --> arrow & <b>bold</b>',
  'Draw the rotor off · 力 ⅝ in 🛠',
  '00:00:01.000 --> 00:00:02.000',
  '  spaces round  ',
  '#1 “quoted” \'single\' "double"',
];

const clipOf = (titles: readonly string[]): ClipChapters => ({
  number: 1,
  name: 'clip-01',
  length: titles.length * 61_001,
  open: false,
  chapters: titles.map((title, n) => ({ from: n * 61_001, to: (n + 1) * 61_001, title })),
  claps: [{ number: 3, at: 12_345 }],
  says: ['Clip 1 was never stopped: a;b=c#d\\e --> here.'],
});
const title = fc.oneof(
  fc.constantFrom(...NASTY),
  fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }),
  fc.string({
    unit: fc.constantFrom('=', ';', '#', '\\', '\n', '-', '>', ' ', 'a', '[', ']'),
    minLength: 1,
    maxLength: 20,
  }),
);
const clips = fc.array(title, { minLength: 1, maxLength: 8 }).map(clipOf);

/** What a title is once letters that no text may hold are gone. */
const kept = (text: string) => {
  const clean = text.replace(/\r\n?/g, '\n').replace(/(?!\n)\p{Cc}|\p{Cs}/gu, ' ');
  return clean.trim() === '' ? '–' : clean;
};
/** What ffmetadata gives back: it cannot end a title in a backslash. */
const given = (text: string) => (kept(text).endsWith('\\') ? `${kept(text)} ` : kept(text));
const oneLine = (text: string) => kept(text).replace(/\s+/gu, ' ').trim() || '–';

describe('ffmetadata', () => {
  it('gives every title and time back by its documented grammar', () => {
    fc.assert(
      fc.property(clips, (clip) => {
        const { chapters, global } = readFfmetadata(ffmetadataChapters(clip));
        expect([...global.keys()]).toEqual([]);
        expect(chapters).toEqual(
          clip.chapters.map(({ from, to, title: said }) => ({ start: from, end: to, title: given(said) })),
        );
      }),
      { numRuns: 1000 },
    );
  });

  it.skipIf(!haveFfmpeg)('gives them back through ffmpeg, as text and in a film', () => {
    const folder = mkdtempSync(join(tmpdir(), 'chargewright-chapters-'));
    try {
      const rounds = [
        NASTY,
        ...fc.sample(fc.array(title, { minLength: 1, maxLength: 8 }), { numRuns: 6, seed: 8 }),
      ];
      for (const titles of rounds) {
        const clip = clipOf(titles);
        const wanted = clip.chapters.map(({ from, to, title: said }) => ({
          start: from,
          end: to,
          title: given(said),
        }));
        const file = join(folder, 'in.ffmetadata');
        writeFileSync(file, ffmetadataChapters(clip));
        const again = join(folder, 'again.ffmetadata');
        ffmpeg('-i', file, '-f', 'ffmetadata', again);
        expect(readWith(again)).toEqual(wanted);
        const seconds = String(clip.length / 1000 + 1);
        const film = join(folder, 'film.mkv');
        ffmpeg(
          ...['-f', 'lavfi', '-i', 'anullsrc=r=8000:cl=mono', '-i', file, '-map', '0:a', '-t', seconds],
          ...['-map_metadata', '1', '-map_chapters', '1', '-codec:a', 'flac', film],
        );
        expect(readWith(film)).toEqual(wanted);
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }

    function ffmpeg(...args: readonly string[]): void {
      const ran = spawnSync(FFMPEG, ['-v', 'error', '-y', '-nostdin', ...args], { encoding: 'utf8' });
      expect([ran.status, ran.stderr]).toEqual([0, '']);
    }
    function readWith(path: string) {
      const out = join(folder, 'out.ffmetadata');
      ffmpeg('-i', path, '-f', 'ffmetadata', out);
      const probed = spawnSync(
        FFMPEG.replace(/ffmpeg$/, 'ffprobe'),
        ['-v', 'error', '-show_chapters', '-of', 'json', path],
        { encoding: 'utf8' },
      );
      const { chapters } = JSON.parse(probed.stdout) as {
        chapters: { start_time: string; end_time: string; tags: { title: string } }[];
      };
      return chapters.map((chapter) => ({
        start: Math.round(Number(chapter.start_time) * 1000),
        end: Math.round(Number(chapter.end_time) * 1000),
        title: chapter.tags.title,
      }));
    }
  });
});

describe('WebVTT', () => {
  /** W3C WebVTT, "WebVTT file body": blocks between blank lines; a cue is a timing line and its text to the next blank line. */
  function readVtt(text: string) {
    const [head, ...blocks] = text.split(/\n{2,}/);
    expect(head).toBe('WEBVTT');
    return blocks.flatMap((block) => {
      const lines = block.replace(/\n$/, '').split('\n');
      if (lines[0]!.startsWith('NOTE')) {
        expect(block).not.toContain('-->');
        return [];
      }
      const [, ...times] =
        /^(\d{2,}):(\d\d):(\d\d)\.(\d{3}) --> (\d{2,}):(\d\d):(\d\d)\.(\d{3})$/.exec(lines[0]!) ?? [];
      expect(times).toHaveLength(8);
      const [a, b, c, d, e, f, g, h] = times.map(Number) as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const payload = lines.slice(1).join('\n');
      expect(payload).not.toMatch(/-->|<|&(?!amp;|lt;|gt;)/);
      expect(payload).not.toBe('');
      return [
        {
          start: ((a * 60 + b) * 60 + c) * 1000 + d,
          end: ((e * 60 + f) * 60 + g) * 1000 + h,
          title: payload.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&amp;', '&'),
        },
      ];
    });
  }

  it('gives every time back, and every title on one line', () => {
    fc.assert(
      fc.property(clips, (clip) => {
        expect(readVtt(vttChapters(clip))).toEqual(
          clip.chapters.map(({ from, to, title: said }) => ({ start: from, end: to, title: oneLine(said) })),
        );
      }),
      { numRuns: 1000 },
    );
  });

  it('has a cue that ends after it begins also where the clip has no length', () => {
    const clip = { ...clipOf(['a']), length: 0, chapters: [{ from: 0, to: 0, title: 'a' }] };
    expect(readVtt(vttChapters(clip))).toEqual([{ start: 0, end: 1, title: 'a' }]);
  });
});

describe('plain times', () => {
  it('are a line a chapter, the first at 0:00', () => {
    expect(plainChapters(clipOf(['Cover off', 'two\nlines']))).toBe('0:00 Cover off\n1:01 two lines\n');
    fc.assert(
      fc.property(clips, (clip) => {
        const lines = plainChapters(clip).split('\n').slice(0, -1);
        expect(lines).toHaveLength(clip.chapters.length);
        for (const one of lines) expect(one).toMatch(/^(\d+:)?\d{1,2}:\d\d \S/);
      }),
    );
  });

  it('count hours where there are any', () => {
    expect([0, 59_999, 60_000, 3_599_999, 3_600_000, 36_061_000].map(clockTime)).toEqual([
      '0:00',
      '0:59',
      '1:00',
      '59:59',
      '1:00:00',
      '10:01:01',
    ]);
  });
});
