/** Figures that the verdict leans on and that nobody has said of this bike: its bands are wide for their sake. */
import { type AnyFigure, counting } from './counts.ts';
import type { Machine } from './definition.ts';

/** What they are called, the most telling first; empty where book, label, sheet or meter says them all. */
export function guessedFigures(machine: Machine): readonly string[] {
  const { alternator, regulator, battery } = machine.charging;
  const asked: readonly (readonly [string, AnyFigure])[] = [
    ['AC volts', alternator.openVolts],
    ['rated amps', alternator.ratedAmps],
    ['winding', alternator.pairOhms],
    ['charging volts', regulator.chargeVolts],
    ['battery', battery.capacity],
  ];
  return asked.flatMap(([name, figure]) => {
    const kind = machine.sources[counting(machine, figure).from]?.kind;
    return kind === 'guess' || kind === 'common-practice' ? [name] : [];
  });
}
