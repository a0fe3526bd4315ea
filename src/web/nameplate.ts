/** The bike's nameplate in short: each figure as its source writes it, with the name of that source. */
import type { Machine, Source } from '../machine/definition.ts';
import { small } from './show.ts';

export interface Plate {
  readonly what: string;
  readonly figure: string;
  readonly source: string;
}

/** The kind in front, unless the title says it already. */
function named(kind: string, title: string): string {
  if (title.toLowerCase().startsWith(kind)) return title;
  return `${kind}: ${small(title)}`;
}

function sourceName(source: Source | undefined): string {
  if (!source) return 'source not named';
  switch (source.kind) {
    case 'book':
    case 'part-sheet':
      return source.title;
    case 'measured':
      return named('measured', source.title);
    case 'common-practice':
      return named('common practice', source.title);
    case 'guess':
      return named('guess', source.title);
  }
}

/** The figures a mechanic looks up first. */
export function nameplate(machine: Machine): readonly Plate[] {
  const { alternator, regulator, battery, loads, fuse, restDrain } = machine.charging;
  const plate = (what: string, figure: string, from: string): Plate => ({
    what,
    figure,
    source: sourceName(machine.sources[from]),
  });
  const { openVolts, ratedAmps, pairOhms } = alternator;
  return [
    plate(
      'Alternator',
      alternator.phases.is === 3 ? 'three phases, star' : 'one winding, two wires',
      alternator.phases.from,
    ),
    plate('AC volts, unplugged', `${openVolts.is.text} at ${openVolts.at.text}`, openVolts.from),
    plate('Amps it can give', `${ratedAmps.is.text} at ${ratedAmps.at.text}`, ratedAmps.from),
    plate('Between two pins, cold', pairOhms.is.text, pairOhms.from),
    plate(`Regulator, ${regulator.type.is}`, regulator.chargeVolts.is.text, regulator.chargeVolts.from),
    plate(
      `Battery, ${battery.chemistry.is}`,
      `${battery.capacity.is.text}, ${battery.crankAmps.is.text} cranking`,
      battery.capacity.from,
    ),
    plate('Accessories, all on', loads.accessories.is.text, loads.accessories.from),
    plate('Main fuse or breaker', fuse.is.text, fuse.from),
    plate('Key-off drain, at most', restDrain.is.text, restDrain.from),
  ];
}

/** `Ardmoor 650 Pathway, 1988`. */
export function machineTitle(machine: Machine): string {
  const { maker, model, year } = machine.about;
  return `${maker} ${model}, ${year}`;
}
