/** The how-to: what a film wants in it, and nothing of the owner that was not ticked. */
import { describe, expect, it } from 'vitest';
import { svgText } from '../../src/draw/svg.ts';
import { demoJob } from '../../src/job/demo.ts';
import { foldJob } from '../../src/job/fold.ts';
import { DEFERENCE } from '../../src/paper/deference.ts';
import type { Block } from '../../src/paper/document.ts';
import { type HowToMay, howToOf } from '../../src/paper/how-to.ts';
import { htmlText } from '../../src/paper/html-text.ts';
import { suspicionOf } from '../../src/paper/job-loop.ts';
import { wayOfJob } from '../../src/paper/job-way.ts';
import { markdownText } from '../../src/paper/markdown-text.ts';
import { machineOf } from '../bench/bench-job.ts';
import { sumOf } from '../job/pictures.ts';
import { filmedJob, NEVER, OWNERS, SHOTS, STEPS_LATER } from './filmed-job.ts';

const MACHINE = machineOf('ardmoor-650-pathway');
const AT = '2026-01-20T10:00:00.000Z';
const NOTHING: HowToMay = { owner: false, photos: false, notes: false };
const STATE = foldJob(filmedJob());
const plain = howToOf(STATE, MACHINE, AT, NOTHING);
const texts = (may: HowToMay) => {
  const { document } = howToOf(STATE, MACHINE, AT, may);
  return [
    JSON.stringify(document),
    htmlText(document, { faces: '', photo: (photo) => `data:image/jpeg;base64,${photo}` }),
    markdownText(document, { drawing: () => 'x.png', photo: (photo) => `${photo}.jpg` }),
  ];
};
const wordsOf = (blocks: readonly Block[]) =>
  blocks.flatMap((block) =>
    block.kind === 'words' || block.kind === 'heading' || block.kind === 'caution' ? [block.text] : [],
  );

describe('a how-to', () => {
  it('names tools, parts, supplies and figures before the first step', () => {
    const headings = plain.document.blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
    expect(headings).toEqual([
      'What you need',
      'Tools',
      'Parts',
      'Gaskets, seals and supplies',
      'Figures',
      'The circuit',
      'The way in and back',
      'Going in',
      'At the bottom',
      'Coming back',
      'Closing',
    ]);
    const rows = plain.document.blocks.flatMap((block) => (block.kind === 'rows' ? block.rows : []));
    for (const block of plain.document.blocks)
      if (block.kind === 'rows') for (const row of block.rows) expect(row).toHaveLength(block.head.length);
    // The new stator's own sheet counts against the book.
    expect(rows.find(([name]) => name === 'stator screws')?.join()).toMatch(
      /40–45 lbf·in.*Sheet packed with/,
    );
    expect(rows.find(([name]) => name?.startsWith('primary chain'))?.join()).toContain('5/8–7/8 in');
    expect(rows.some(([name]) => name?.startsWith('engine oil'))).toBe(false);
  });

  it('puts each caution right before its step, and every step in the order of the job', () => {
    const { blocks } = plain.document;
    const at = blocks.findIndex((block) => block.kind === 'words' && /Draw the rotor past/.test(block.text));
    expect(blocks[at - 1]).toMatchObject({ kind: 'caution', text: expect.stringMatching(/Magnets/) });
    const steps = wordsOf(blocks).filter((text) => /^\d+\. /.test(text));
    expect(steps.map((text) => Number.parseInt(text, 10))).toEqual(steps.map((_, n) => n + 1));
    const ticked = STATE.way.ticks.length;
    expect(steps[0]).toContain('Roll the bike into');
    expect(steps[ticked - 1]).toContain('Ease the stator out');
    expect(steps.length).toBeGreaterThan(ticked + 20);
    expect(steps.at(-1)).toMatch(/leaks/);
    expect(new Set(steps.map((text) => text.replace(/^\d+\. /, ''))).size).toBe(steps.length);
  });

  it('says torque and stages where the screw is tightened', () => {
    const { blocks } = plain.document;
    const at = blocks.findIndex(
      (block) => block.kind === 'words' && /Torque the stator's screws, last stage/.test(block.text),
    );
    expect(JSON.stringify(blocks[at + 1])).toMatch(
      /in stages of 2\.26 N·m \(20 lbf·in\), then 4\.52–5\.08 N·m/,
    );
  });

  it('says once that the bike’s own book comes first, and that all is invented', () => {
    for (const text of texts({ owner: true, photos: true, notes: true })) {
      expect(text.split(DEFERENCE)).toHaveLength(2);
      expect(text).toMatch(/Everything here is invented/);
      expect(text).toMatch(/1991 \(invented\)/);
    }
  });

  it('of a real job on an invented bike says that the bike is invented', () => {
    const [opened, ...rest] = filmedJob();
    const real = foldJob([{ ...opened, invented: false } as never, ...rest]);
    const said = wordsOf(howToOf(real, MACHINE, AT, NOTHING).document.blocks);
    expect(said.some((one) => one.startsWith('The bike of this machine file is invented'))).toBe(true);
    expect(said.some((one) => one.startsWith('Everything here'))).toBe(false);
  });
});

describe('what is the owner’s', () => {
  const found = (may: HowToMay) =>
    texts(may).map((text) => {
      const count = (words: readonly string[]) => words.filter((word) => text.includes(word)).length;
      const photos = SHOTS.filter((shot) => text.includes(sumOf(shot))).length;
      return [count(OWNERS.owner), count(OWNERS.notes), count(OWNERS.shots), photos];
    });
  const thrice = (...counts: readonly number[]) => [counts, counts, counts];

  it('is in none of its forms unless ticked', () => {
    expect(found(NOTHING)).toEqual(thrice(0, 0, 0, 0));
    expect(plain.photos).toEqual([]);
  });

  it('comes in by its own tick alone', () => {
    expect(found({ ...NOTHING, owner: true })).toEqual(thrice(3, 0, 0, 0));
    expect(found({ ...NOTHING, notes: true })).toEqual(thrice(0, 3, 0, 0));
    expect(found({ ...NOTHING, photos: true })).toEqual(thrice(0, 0, 0, 2));
    expect(found({ owner: true, photos: true, notes: true })).toEqual(thrice(3, 3, 1, 2));
  });

  it('never holds the id of the job or the device', () => {
    for (const text of texts({ owner: true, photos: true, notes: true }))
      for (const word of NEVER) expect(text).not.toContain(word);
  });

  it('that is a photograph which is not here leaves a word in its place', () => {
    const { document, photos } = howToOf(STATE, MACHINE, AT, { ...NOTHING, photos: true });
    expect(photos).toHaveLength(3);
    const html = htmlText(document, { faces: '', photo: () => null });
    expect(html.match(/Photograph missing here/g)).toHaveLength(3);
    expect(html).not.toContain('<img');
  });
});

describe('a how-to with less to tell', () => {
  it('of a job without a way says what is to be done, and names the members of the circuit without a figure', () => {
    const { document, dip, loop } = howToOf(foldJob(demoJob()), MACHINE, AT, NOTHING);
    expect(dip).toBeNull();
    expect(wordsOf(document.blocks).join('\n')).toMatch(/Nobody has chosen yet/);
    expect(svgText(loop!)).toContain('>regulator<');
    expect(svgText(loop!)).not.toContain('%');
  });

  it('of a bike whose machine file is not here says so', () => {
    const { document, loop, dip } = howToOf(STATE, null, AT, NOTHING);
    expect([loop, dip]).toEqual([null, null]);
    expect(wordsOf(document.blocks).join('\n')).toMatch(/machine file of this bike is not here/);
  });

  it('of a machine file without the section work says so', () => {
    const bare = machineOf<{ work?: unknown }>('ardmoor-650-pathway', (file) => {
      delete file.work;
    });
    expect(wordsOf(howToOf(STATE, bare, AT, NOTHING).document.blocks).join('\n')).toMatch(
      /no section “work”/,
    );
  });

  it('of a finished job has all steps behind it, each once', () => {
    const ahead = wayOfJob(STATE, MACHINE, Date.parse(AT));
    if (!ahead.ok) throw new Error(ahead.why);
    const left = ahead.steps.filter(({ id }) => !ahead.done.has(id)).map(({ id }) => id);
    expect(left.length).toBeGreaterThan(20);
    const finished = wayOfJob(foldJob(filmedJob([...STEPS_LATER, ...left])), MACHINE, Date.parse(AT));
    if (!finished.ok) throw new Error(finished.why);
    expect(finished.steps.map(({ id }) => id).sort()).toEqual(ahead.steps.map(({ id }) => id).sort());
    expect(finished.steps.every(({ id }) => finished.done.has(id))).toBe(true);
    expect(finished.dip).not.toBeNull();
  });

  it('of a job in which somebody forgot to tick still has every step, each once', () => {
    const gaps = foldJob(filmedJob(['stator-in', 'cover-on']));
    const steps = wordsOf(howToOf(gaps, MACHINE, AT, NOTHING).document.blocks).filter((text) =>
      /^\d+\. /.test(text),
    );
    expect(new Set(steps.map(bare)).size).toBe(steps.length);
    expect(steps.some((text) => text.includes('Lay the stator in'))).toBe(true);
    expect(steps.at(-1)).toMatch(/leaks/);
  });

  const bare = (text: string) => text.replace(/^\d+\. /, '').replace(/ \(.*\)$/, '');
});

it('suspicion of a member sums over the sets it is in, once each, and leaves out words of a later version', () => {
  const shares = suspicionOf([
    { faults: ['plug-pin', 'plug-pins'], probability: 0.5 },
    { faults: ['plug-pin', 'rotor-weak'], probability: 0.3 },
    { faults: ['moon-phase'], probability: 0.2 },
  ]);
  expect([shares['stator-plug'], shares.rotor, shares.battery]).toEqual([0.8, 0.3, 0]);
});

it('Markdown takes no sign of a machine file for one of its own, CommonMark 2.4', () => {
  const text = markdownText(
    {
      title: '# *a* _b_',
      under: '<script>',
      at: AT,
      blocks: [
        { kind: 'words', text: '1. one\n\n- [x](y) `z` | ~~s~~ ![p](q)' },
        { kind: 'rows', caption: 'c', head: ['a|b'], rows: [['x|y\nz']] },
      ],
    },
    { drawing: () => null, photo: () => null },
  );
  expect(text).toBe(
    '# \\# \\*a\\* \\_b\\_\n\n\\<script\\>\n\n1\\. one  - \\[x\\](y) \\`z\\` \\| \\~\\~s\\~\\~ \\!\\[p\\](q)\n\nc:\n\n| a\\|b |\n| --- |\n| x\\|y z |\n',
  );
});

it('HTML runs and fetches nothing, whatever the machine file holds', () => {
  const html = htmlText(
    {
      title: '<script>alert(1)</script>',
      under: '"><img src=x>',
      at: AT,
      blocks: [{ kind: 'photos', photos: [{ photo: 'x', about: '" onerror="alert(1)' }] }],
    },
    { faces: '', photo: () => 'data:image/jpeg;base64,AAAA' },
  );
  expect(html).not.toMatch(/<script|<img src=x|" onerror="/);
  expect(html).toContain("default-src 'none'");
});
