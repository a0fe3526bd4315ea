import { describe, expect, it } from 'vitest';
import { stepOf } from '../../src/draw/hatch.ts';
import { drawLoop, percent, probePointsOf } from '../../src/draw/loop.ts';
import type { LoopInput } from '../../src/draw/loop-plan.ts';
import { type SvgNode, svgText } from '../../src/draw/svg.ts';
import { MEMBERS, type Member } from '../../src/fault/catalogue.ts';
import { textOf, walk } from './sheet-geometry.ts';

const none = Object.fromEntries(MEMBERS.map((m) => [m, 0])) as Record<Member, number>;
const base: LoopInput = {
  phases: 3,
  regulator: 'shunt',
  senses: 'wire',
  loadsFedFrom: 'battery',
  suspicion: none,
  proven: [],
  shape: 'wide',
};
const find = (drawing: SvgNode, member: Member) =>
  [...walk(drawing)].find((n) => n.attrs['data-member'] === member);
const tone = (drawing: SvgNode, member: Member) =>
  [...walk(drawing)].find((n) => n.attrs['data-tone'] === member)!;
const inkOf = (node: SvgNode) => svgText(node).length;

describe('the loop', () => {
  it('is the same text for the same input', () => {
    expect(svgText(drawLoop(base))).toBe(svgText(drawLoop(structuredClone(base))));
  });
  it('uses no inline style, no ids and no colours but the six', () => {
    for (const shape of ['wide', 'narrow'] as const) {
      const drawing = drawLoop({
        ...base,
        shape,
        suspicion: { ...none, battery: 0.9 },
        proven: ['rotor'],
        highlight: 'stator',
      });
      for (const node of walk(drawing)) {
        expect(node.attrs).not.toHaveProperty('style');
        expect(node.attrs).not.toHaveProperty('id');
        for (const key of ['fill', 'stroke']) {
          expect(String(node.attrs[key] ?? 'none')).toMatch(
            /^(none|var\(--(ink|paper|brass|teal|danger|quiet)\))$/,
          );
        }
      }
    }
  });
  it('makes every member a named button in the order of the current', () => {
    const drawing = drawLoop({
      ...base,
      suspicion: { ...none, regulator: 0.46 },
      proven: ['battery'],
      readings: { battery: '12.61 V' },
    });
    const groups = [...walk(drawing)].filter((n) => n.attrs['data-member'] !== undefined);
    expect(groups.map((n) => n.attrs['data-member'])).toEqual(MEMBERS);
    for (const g of groups) expect([g.attrs.tabindex, g.attrs.role]).toEqual([0, 'button']);
    expect(find(drawing, 'regulator')!.attrs['aria-label']).toBe('regulator, 46 %');
    expect(find(drawing, 'battery')!.attrs['aria-label']).toBe('battery, proven, 12.61 V');
    expect(find(drawing, 'rotor')!.attrs['aria-label']).toBe('rotor, under 1 %');
  });
  it('has no sense wire on a regulator that senses at its own output', () => {
    expect(find(drawLoop({ ...base, senses: 'output' }), 'sense-wire')).toBeUndefined();
    expect(probePointsOf({ ...base, senses: 'output' })).not.toContain('sense-end');
  });
  it('hatches denser the stronger the suspicion, in four steps', () => {
    expect([0, 0.039, 0.04, 0.15, 0.35, 0.65, 1].map(stepOf)).toEqual([0, 0, 1, 2, 3, 4, 4]);
    const tones = [0.01, 0.1, 0.2, 0.5, 0.9].map((p) =>
      inkOf(tone(drawLoop({ ...base, suspicion: { ...none, regulator: p } }), 'regulator')),
    );
    expect(tones).toEqual([...tones].sort((a, b) => a - b));
    expect(new Set(tones).size).toBe(5);
  });
  it('draws a proven member without hatching, with two outlines and the word', () => {
    const drawing = drawLoop({ ...base, suspicion: { ...none, battery: 0.9 }, proven: ['battery'] });
    expect(tone(drawing, 'battery').children).toEqual([]);
    const group = find(drawing, 'battery')!;
    expect([...walk(group)].filter((n) => n.attrs.stroke === 'var(--teal)')).toHaveLength(2);
    expect([...walk(group)].filter((n) => n.tag === 'text').map(textOf)).toEqual(['battery', 'proven']);
  });
  it('tells the phases, the kind of regulator and the feed of the loads apart', () => {
    const texts = new Set<string>();
    for (const phases of [1, 3] as const)
      for (const regulator of ['shunt', 'series'] as const)
        for (const loadsFedFrom of ['battery', 'regulator'] as const)
          for (const senses of ['output', 'wire'] as const)
            for (const shape of ['wide', 'narrow'] as const)
              texts.add(svgText(drawLoop({ ...base, phases, regulator, loadsFedFrom, senses, shape })));
    expect(texts.size).toBe(32);
  });
  it('hangs the loads on the battery side of the breaker or on the regulator side', () => {
    const places = (loadsFedFrom: 'battery' | 'regulator') => {
      const drawing = drawLoop({ ...base, loadsFedFrom });
      const x = (member: Member) =>
        Number([...walk(find(drawing, member)!)].find((n) => n.tag === 'circle')!.attrs.cx);
      return x('loads') - x('breaker');
    };
    expect(places('battery')).toBeGreaterThan(0);
    expect(places('regulator')).toBeLessThan(0);
  });
  it('puts both probes of a pin read from both sides on the two sides of the plug', () => {
    for (const shape of ['wide', 'narrow'] as const) {
      const drawing = drawLoop({
        ...base,
        shape,
        probes: {
          red: 'pin-a',
          black: 'pin-a',
          around: null,
          meter: 'AC volts',
          sound: 'a sound bike: under 0.1 V',
        },
      });
      const tags = [...walk(drawing)].filter(
        (n) => n.tag === 'text' && ['red +', 'black −'].includes(textOf(n)),
      );
      expect(tags).toHaveLength(2);
      expect(`${tags[0]!.attrs.x} ${tags[0]!.attrs.y}`).not.toBe(`${tags[1]!.attrs.x} ${tags[1]!.attrs.y}`);
    }
  });
  it('names every probe by word and draws the clamp as a clamp', () => {
    const words = { meter: 'DC amps', sound: 'a sound bike: 4–9 A' };
    const clamp = drawLoop({
      ...base,
      probes: { red: null, black: null, around: 'around-output-wire', ...words },
    });
    expect([...walk(clamp)].filter((n) => n.tag === 'text').map(textOf)).toContain('clamp');
    const volts = drawLoop({
      ...base,
      probes: { red: 'post-positive', black: 'frame', around: null, ...words },
    });
    const texts = [...walk(volts)].filter((n) => n.tag === 'text').map(textOf);
    expect(texts).toEqual(
      expect.arrayContaining(['red +', 'black −', 'DC amps', 'a sound bike: 4–9\u00a0A']),
    );
    expect(textOf([...walk(volts)].find((n) => n.tag === 'desc')!)).toContain(
      'red at post-positive, black at frame',
    );
  });
  it('says in words what is suspected, strongest first', () => {
    const desc = textOf(
      [...walk(drawLoop({ ...base, suspicion: { ...none, stator: 0.2, regulator: 0.7 } }))].find(
        (n) => n.tag === 'desc',
      )!,
    );
    expect(desc).toContain('Suspected: regulator 70 %, stator 20 %.');
  });
  it('refuses a suspicion that is no probability and a probe this bike has no place for', () => {
    expect(() => drawLoop({ ...base, suspicion: { ...none, rotor: 1.2 } })).toThrow(/from 0 to 1, got 1.2/);
    expect(() => drawLoop({ ...base, suspicion: { ...none, rotor: Number.NaN } })).toThrow(RangeError);
    const probes = { red: 'pin-c', black: null, around: null, meter: 'AC volts', sound: 'x' } as const;
    expect(() => drawLoop({ ...base, phases: 1, probes })).toThrow(
      /probes\.red: this bike's loop has no "pin-c"/,
    );
  });
  it('cuts a reading that is too long for its place but keeps it whole in words', () => {
    const long = '12.6123456789 V at the post';
    const group = find(drawLoop({ ...base, readings: { 'output-joint': long } }), 'output-joint')!;
    expect(
      [...walk(group)]
        .filter((n) => n.tag === 'text')
        .map(textOf)
        .at(-1),
    ).toMatch(/…$/);
    expect(group.attrs['aria-label']).toContain(long);
  });
  it('never says 0 or 100 per cent', () => {
    expect([0, 0.004, 0.006, 0.5, 0.994, 0.999].map((p) => percent(p).replace('\u00a0', ' '))).toEqual([
      '<1 %',
      '<1 %',
      '1 %',
      '50 %',
      '99 %',
      '>99 %',
    ]);
  });
});
