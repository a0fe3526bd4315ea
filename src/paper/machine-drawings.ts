/** The drawings that go with a machine file: its loop, the dip to each of its targets, the screws of its covers in their order. */
import { drawDip } from '../draw/dip.ts';
import { dipOfPlan } from '../draw/dip-of-plan.ts';
import { drawSumPicture } from '../draw/sum-picture.ts';
import type { SvgNode } from '../draw/svg.ts';
import { tighteningOrder } from '../joint/tightening-order.ts';
import type { Machine } from '../machine/definition.ts';
import { workOf } from '../machine/work.ts';
import { planJob } from '../way/plan.ts';
import { loopOfJob } from './job-loop.ts';
import { still } from './still.ts';

export interface MachineDrawing {
  /** Name for a file, without its ending: `loop`, `way-in-stator`, `screws-cover-screws`. */
  readonly name: string;
  readonly about: string;
  readonly drawing: SvgNode;
}

/** Dips that are drawn, count: each is planned and proved, and a file with more is drawn in part. */
export const MOST_DIPS = 16;
/** Maps of screws that are drawn, count. */
export const MOST_MAPS = 40;

/** Longest part of a file's name that comes from an id, characters. */
const LONGEST_NAME = 60;

/** Every drawing that the file is good for. What nobody has measured yet is not drawn. */
export function drawingsOfMachine(machine: Machine): readonly MachineDrawing[] {
  return namedApart([
    {
      name: 'loop',
      about: 'The loop: the charging circuit',
      drawing: still(loopOfJob({ accepted: null }, machine)),
    },
    ...dipsOf(machine),
    ...mapsOf(machine),
  ]);
}

/** Two ids may make one name of a file: the later gets a number. */
function namedApart(drawings: readonly MachineDrawing[]): readonly MachineDrawing[] {
  const taken = new Set<string>();
  return drawings.map((one) => {
    let name = one.name;
    for (let n = 2; taken.has(name); n++) name = `${one.name}-${n}`;
    taken.add(name);
    return { ...one, name };
  });
}

/** The hours of a dip count from the beginning of the work; by the plan alone, so that the file makes the same drawing in any year. */
function dipsOf(machine: Machine): readonly MachineDrawing[] {
  const work = workOf(machine, machine.about.year);
  if (!work || work.levels.length === 0) return [];
  return work.targets.slice(0, MOST_DIPS).flatMap(({ id, name }): readonly MachineDrawing[] => {
    const answer = planJob({ work, targets: [id], people: 1 });
    if (!answer.ok || answer.least.steps.length === 0) return [];
    const { ride, ...input } = dipOfPlan(answer.least, work, { p50: 0, p90: 0 }, 0);
    const drawing = still(drawDip({ ...input, ride: { at: ride.at } }, 'wide'));
    return [{ name: `way-in-${fileName(id)}`, about: `The dip: the way in to the ${name}`, drawing }];
  });
}

function mapsOf(machine: Machine): readonly MachineDrawing[] {
  return Object.entries(machine.fasteners ?? {})
    .flatMap(([id, { name, positions }]): readonly MachineDrawing[] => {
      if (!positions || positions.length < 2) return [];
      // The file counts upwards, the sheet downwards.
      const places = positions.map(({ x, y }) => ({ x: x.low, y: -y.low }));
      const order = tighteningOrder(places);
      if (!order.ok) return [];
      const drawing = still(drawSumPicture({ kind: 'bolt-map', places, order: order.order }, 'wide'));
      return [
        { name: `screws-${fileName(id)}`, about: `The ${name}: where each sits, in what order`, drawing },
      ];
    })
    .slice(0, MOST_MAPS);
}

/** An id of the file, which may hold any sign, as the name of a file. */
function fileName(id: string): string {
  const plain = id
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST_NAME)
    .replace(/^-+|-+$/g, '');
  return plain === '' ? 'unnamed' : plain;
}
