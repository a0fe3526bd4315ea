import { describe, it } from 'vitest';
import { drawBand } from '../../src/draw/band.ts';
import { type CurvesInput, drawCurves } from '../../src/draw/curves.ts';
import { drawLoop } from '../../src/draw/loop.ts';
import type { LoopInput } from '../../src/draw/loop-plan.ts';
import { drawReliability } from '../../src/draw/reliability.ts';
import { drawSets } from '../../src/draw/sets.ts';
import { MEMBERS, type Member } from '../../src/fault/catalogue.ts';
import { expectGolden } from './golden.ts';

/** Every figure here is invented. */
const low = Object.fromEntries(MEMBERS.map((m) => [m, 0.01])) as Record<Member, number>;

const burnt: LoopInput = {
  phases: 3,
  regulator: 'shunt',
  senses: 'output',
  loadsFedFrom: 'battery',
  suspicion: {
    ...low,
    stator: 0.31,
    'stator-plug': 0.88,
    regulator: 0.46,
    'output-joint': 0.12,
    ground: 0.06,
  },
  proven: ['battery', 'breaker'],
  readings: { battery: '12.61 V', 'output-joint': '31 mV', loads: '4.6 A' },
  probes: {
    red: 'pin-b',
    black: 'pin-c',
    around: null,
    meter: 'AC volts, pins b–c, idle, unplugged',
    sound: 'a sound bike: 14.1–16.3 V',
  },
  shape: 'wide',
};

const single: LoopInput = {
  phases: 1,
  regulator: 'series',
  senses: 'wire',
  loadsFedFrom: 'regulator',
  suspicion: { ...low, 'sense-wire': 0.4, 'negative-post': 0.7, drain: 0.2 },
  proven: ['rotor', 'stator', 'stator-plug', 'ground'],
  probes: {
    red: 'sense-end',
    black: 'post-positive',
    around: null,
    meter: 'DC millivolts along the sense wire',
    sound: 'a sound bike: under 20 mV',
  },
  shape: 'wide',
  highlight: 'sense-wire',
};

const still: LoopInput = { ...burnt, suspicion: low, proven: MEMBERS, readings: {}, probes: null };

const rpm = Array.from({ length: 50 }, (_, i) => 900 + i * 100);
const curves: CurvesInput = {
  title: 'Battery volts over engine speed',
  x: { label: 'engine speed', unit: 'rpm' },
  y: { label: 'battery volts', unit: 'V' },
  curves: [
    { name: 'sound', points: rpm.map((x) => [x, Math.min(14.4, 12 + x / 800)]) },
    { name: 'one lead open', points: rpm.map((x) => [x, Math.min(13.4, 12 + x / 2600)]) },
    { name: 'burnt plug', points: rpm.map((x) => [x, x > 3000 && x < 3400 ? Number.NaN : 12 + x / 6000]) },
  ],
  bands: [{ name: 'a sound bike', points: rpm.map((x) => [x, 13.7, 14.7]) }],
  shape: 'wide',
};

const sets = {
  title: 'Which faults',
  sets: [
    { faults: ['burnt pins in the stator plug', 'regulator dead'], probability: 0.41 },
    { faults: ['burnt pins in the stator plug'], probability: 0.2 },
    {
      faults: ['stator shorted to the core midway', 'burnt pins in the stator plug', 'a diode shorted'],
      probability: 0.16,
    },
    { faults: [], probability: 0.02 },
    { faults: ['thin wire'], probability: 0.004 },
    { faults: ['loose negative post'], probability: 0.003 },
  ],
  most: 4,
};

const bins = [0.04, 0.15, 0.25, 0.36, 0.45, 0.55, 0.64, 0.75, 0.86, 0.97].map((predicted, i) => ({
  predicted,
  observed: Math.min(
    1,
    Math.max(0, predicted + [0, -0.03, 0.05, -0.04, 0.02, 0.06, -0.05, 0.01, -0.02, -0.01][i]!),
  ),
  count: [812, 204, 90, 61, 40, 33, 35, 44, 70, 511][i]!,
}));

describe('golden drawings', () => {
  for (const shape of ['wide', 'narrow'] as const) {
    it(`loop, burnt plug, ${shape}`, () =>
      expectGolden(`loop-burnt-plug-${shape}`, drawLoop({ ...burnt, shape }), 'paper'));
    it(`loop, single phase, ${shape}`, () =>
      expectGolden(`loop-single-phase-${shape}`, drawLoop({ ...single, shape }), 'slate'));
    it(`loop, all proven, ${shape}`, () =>
      expectGolden(`loop-all-proven-${shape}`, drawLoop({ ...still, shape }), 'glare'));
    it(`loop, clamp, ${shape}`, () =>
      expectGolden(
        `loop-clamp-${shape}`,
        drawLoop({
          ...burnt,
          shape,
          probes: { ...burnt.probes!, red: null, black: null, around: 'around-phase-b' },
        }),
        'paper',
      ));
    it(`curves, ${shape}`, () => expectGolden(`curves-${shape}`, drawCurves({ ...curves, shape }), 'paper'));
    it(`sets, ${shape}`, () => expectGolden(`sets-${shape}`, drawSets({ ...sets, shape }), 'slate'));
    it(`reliability, ${shape}`, () =>
      expectGolden(`reliability-${shape}`, drawReliability({ title: 'Calibration', bins, shape }), 'glare'));
    for (const [name, value] of [
      ['empty', null],
      ['sound', 15.2],
      ['below', 3.1],
      ['off-scale', 44],
    ] as const) {
      it(`band, ${name}, ${shape}`, () =>
        expectGolden(
          `band-${name}-${shape}`,
          drawBand({
            unit: 'V',
            sound: { low: 14.1, high: 16.3 },
            value,
            min: 0,
            max: 30,
            label: 'AC volts, pins b–c',
            shape,
          }),
          'paper',
        ));
    }
  }
});
