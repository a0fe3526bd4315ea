import { describe, expect, it } from 'vitest';
import { drawLoop, probePointsOf } from '../../src/draw/loop.ts';
import type { LoopInput } from '../../src/draw/loop-plan.ts';
import type { SvgNode } from '../../src/draw/svg.ts';
import { MEMBERS, type Member } from '../../src/fault/catalogue.ts';
import type { ProbePoint } from '../../src/reading/kinds.ts';
import { type Box, hits, overlap, pointsAlong, textBoxes, viewBox, walk } from './sheet-geometry.ts';

const all = <T>(value: T) => Object.fromEntries(MEMBERS.map((m) => [m, value])) as Record<Member, T>;

interface Combination {
  phases: 1 | 3;
  senses: 'output' | 'wire';
  loadsFedFrom: 'battery' | 'regulator';
  shape: 'wide' | 'narrow';
  regulator: 'shunt' | 'series';
}

const combinations: Combination[] = [];
for (const phases of [1, 3] as const)
  for (const senses of ['output', 'wire'] as const)
    for (const loadsFedFrom of ['battery', 'regulator'] as const)
      for (const shape of ['wide', 'narrow'] as const)
        for (const regulator of ['shunt', 'series'] as const)
          combinations.push({ phases, senses, loadsFedFrom, shape, regulator });

const words = {
  meter: 'DC volts, black at the regulator, red at the post, 3000 rpm, high beam',
  sound: 'a sound bike: 0.05–0.22 V',
};
/** Widest labels there are: ">99 %" everywhere and a reading of nine figures at every member. */
const crowded = { suspicion: all(1), proven: [], readings: all('−12.345 V') } as const;
const proven = { suspicion: all(0), proven: MEMBERS, readings: all('−12.345 V') } as const;

function complaints(drawing: SvgNode): string[] {
  const found: string[] = [];
  const [width, height] = viewBox(drawing);
  const boxes = textBoxes(drawing);
  for (const [i, a] of boxes.entries()) {
    if (a.x0 < 2 || a.y0 < 2 || a.x1 > width - 2 || a.y1 > height - 2) found.push(`cut: "${a.what}"`);
    for (const b of boxes.slice(i + 1))
      if (overlap(a, b, 1)) found.push(`overlap: "${a.what}" and "${b.what}"`);
  }
  return found;
}

/** Letters of one member on the body of another. */
function trespassers(drawing: SvgNode): string[] {
  const members = [...walk(drawing)]
    .filter((node) => node.attrs['data-member'] !== undefined)
    .map((node) => {
      const hit = [...walk(node)].find((n) => n.attrs.class === 'hit')!;
      const [x, y, w, h] = ['x', 'y', 'width', 'height'].map((k) => Number(hit.attrs[k])) as [
        number,
        number,
        number,
        number,
      ];
      // The target for the finger is 4 px larger than the body.
      const body = {
        what: String(node.attrs['data-member']),
        x0: x + 4,
        y0: y + 4,
        x1: x + w - 4,
        y1: y + h - 4,
      };
      return { body, letters: textBoxes(node) };
    });
  return members.flatMap(({ letters }) =>
    letters.flatMap((box) =>
      members.filter((m) => overlap(box, m.body)).map((m) => `"${box.what}" stands on ${m.body.what}`),
    ),
  );
}

/** The letters of the members only: what a cable, a tag or the meter must leave alone. */
function memberLetters(drawing: SvgNode): Box[] {
  return [...walk(drawing)]
    .filter((node) => String(node.attrs.class ?? '').match(/^(member|marks)/))
    .flatMap((node) => textBoxes(node));
}

/** Outlines of what lies on top: the tags of the probes and the meter. */
function covers(drawing: SvgNode): { tags: Box[]; meter: Box[] } {
  const rectangles = (node: SvgNode): Box[] =>
    [...walk(node)]
      .filter((n) => n.tag === 'rect')
      .map((n) => {
        const [x, y, w, h] = ['x', 'y', 'width', 'height'].map((k) => Number(n.attrs[k])) as [
          number,
          number,
          number,
          number,
        ];
        return { what: 'cover', x0: x, y0: y, x1: x + w, y1: y + h };
      });
  const probes = [...walk(drawing)].find((n) => n.attrs.class === 'probes');
  if (probes === undefined) return { tags: [], meter: [] };
  const meter = probes.children.filter(
    (c): c is SvgNode => typeof c !== 'string' && c.attrs.class === 'meter',
  );
  const rest = {
    ...probes,
    children: probes.children.filter((c) => typeof c !== 'string' && c.attrs.class !== 'meter'),
  };
  const widest = Math.max(...rectangles(rest).map((r) => r.x1 - r.x0), 0);
  const tags = rectangles(rest).map((r) => {
    const middle = (r.x0 + r.x1) / 2;
    return { ...r, x0: middle - widest / 2, x1: middle + widest / 2 };
  });
  return { tags, meter: meter.flatMap(rectangles) };
}

function probeComplaints(drawing: SvgNode): string[] {
  const found = complaints(drawing);
  const letters = memberLetters(drawing);
  const { tags, meter } = covers(drawing);
  const cables = [...walk(drawing)]
    .filter((n) => String(n.attrs.class ?? '').startsWith('cable'))
    .map((n) => ({ name: n.attrs.class, points: pointsAlong(String(n.attrs.d)) }));
  for (const box of letters) {
    for (const c of cables) if (hits(c.points, box, 3)) found.push(`${c.name} runs over "${box.what}"`);
    for (const cover of [...tags, ...meter]) if (overlap(box, cover)) found.push(`covered: "${box.what}"`);
  }
  for (const [i, a] of tags.entries())
    for (const b of tags.slice(i + 1)) if (overlap(a, b)) found.push('two tags overlap');
  for (const a of tags) for (const b of meter) if (overlap(a, b)) found.push('a tag lies on the meter');
  return found;
}

const name = (c: Combination) =>
  `${c.shape}, ${c.phases} phase, ${c.regulator}, senses ${c.senses}, loads from ${c.loadsFedFrom}`;
const isTip = (p: ProbePoint) => !p.startsWith('around-');

describe('the loop leaves every letter readable', () => {
  it.each(combinations.map((c) => [name(c), c] as const))('%s', (_, combination) => {
    for (const state of [crowded, proven]) {
      const input: LoopInput = { ...combination, ...state };
      const drawing = drawLoop(input);
      expect([...complaints(drawing), ...trespassers(drawing)]).toEqual([]);
    }
  });

  it.each(
    combinations
      .filter((c) => c.regulator === 'shunt' && c.senses === 'wire')
      .map((c) => [name(c), c] as const),
  )('with both probes anywhere: %s', (_, combination) => {
    const tips = probePointsOf(combination).filter(isTip);
    const found = new Set<string>();
    for (const [i, red] of tips.entries()) {
      // One order is enough: `covers` takes every tag as wide as the widest.
      for (const black of tips.slice(i)) {
        if (red === black && !red.startsWith('pin-')) continue;
        const drawing = drawLoop({
          ...combination,
          ...crowded,
          probes: { red, black, around: null, ...words },
        });
        for (const c of probeComplaints(drawing)) found.add(`${red} / ${black}: ${c}`);
      }
    }
    expect([...found]).toEqual([]);
  });

  it.each(combinations.filter((c) => c.regulator === 'series').map((c) => [name(c), c] as const))(
    'with one probe or the clamp: %s',
    (_, combination) => {
      for (const point of probePointsOf(combination)) {
        const leads = isTip(point) ? (['red', 'black'] as const) : (['around'] as const);
        for (const lead of leads) {
          const probes = { red: null, black: null, around: null, ...words, [lead]: point };
          const drawing = drawLoop({ ...combination, ...crowded, probes });
          expect(probeComplaints(drawing), `${lead} at ${point}`).toEqual([]);
        }
      }
    },
  );

  it('keeps the outlines of proven members off every letter', () => {
    for (const combination of combinations) {
      const drawing = drawLoop({ ...combination, ...proven });
      const letters = memberLetters(drawing);
      const outlines = [...walk(drawing)].filter((n) => n.attrs.stroke === 'var(--teal)');
      expect(outlines.length).toBeGreaterThan(2 * 12);
      for (const n of outlines) {
        const d =
          n.tag === 'circle'
            ? `M${Array.from({ length: 90 }, (_, i) => {
                const a = (i / 90) * 2 * Math.PI;
                return `${Number(n.attrs.cx) + Number(n.attrs.r) * Math.cos(a)} ${Number(n.attrs.cy) + Number(n.attrs.r) * Math.sin(a)}`;
              }).join('L')}Z`
            : String(n.attrs.d);
        const points = pointsAlong(d);
        const struck = letters.filter((box) => hits(points, box, 0)).map((box) => box.what);
        expect(struck, name(combination)).toEqual([]);
      }
    }
  });

  it('is lettered large enough: 15 px for a laptop at 840 px, 14 px for a phone at 328 px', () => {
    for (const [shape, shown, least] of [
      ['wide', 840, 15],
      ['narrow', 328, 14],
    ] as const) {
      const drawing = drawLoop({
        ...combinations[0]!,
        shape,
        ...crowded,
        probes: { red: 'pin-a', black: 'frame', around: null, ...words },
      });
      const scale = shown / viewBox(drawing)[0];
      for (const node of walk(drawing))
        if (node.tag === 'text')
          expect(Number(node.attrs['font-size']) * scale).toBeGreaterThanOrEqual(least);
    }
  });
});
