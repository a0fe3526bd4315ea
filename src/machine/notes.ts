/** What should be said about a machine file that is in order: where its sources differ, and what to keep in mind. */
import { chargingSpec } from './charging-spec.ts';
import { counting, eachFigure, sameValue, writeSaid } from './counts.ts';
import type { Machine } from './definition.ts';

/** Notes on a checked machine, each one sentence. */
export function notes(machine: Machine): readonly string[] {
  const out: string[] = [];
  if (machine.about.invented) {
    out.push(
      `${machine.about.maker} ${machine.about.model} is invented; no such bike exists and no figure is a real one's.`,
    );
  }
  for (const { path, figure } of eachFigure(machine)) {
    const counts = counting(machine, figure);
    for (const said of [figure, ...figure.also]) {
      if (said === counts || sameValue(said, counts)) continue;
      const name = path.slice(2);
      out.push(
        `${name}: ${title(machine, said.from)} says ${writeSaid(said)}, ${title(machine, counts.from)} says ${writeSaid(counts)}; the latter counts${why(machine, counts.from, said.from)}.`,
      );
    }
  }
  const spec = chargingSpec(machine);
  const { ignition, low, high, tail, accessories } = spec.loads;
  const most = ignition + Math.max(low, high) + tail + accessories;
  const gives = spec.alternator.ratedAmps.amps;
  if (most > gives) {
    out.push(
      `With everything on the bike draws ${most.toFixed(1)} A, more than the ${gives} A its alternator is rated for.`,
    );
  }
  if (spec.battery.chemistry === 'agm' && spec.regulator.chargeVolts[1] > 14.8) {
    out.push(
      `The regulator may charge at ${spec.regulator.chargeVolts[1]} V; AGM batteries are commonly kept to 14.8 V (common practice, no source).`,
    );
  }
  return out;
}

function title(machine: Machine, id: string): string {
  const source = machine.sources[id];
  return source ? `"${source.title}"` : id;
}

function why(machine: Machine, counts: string, other: string): string {
  const winner = machine.sources[counts];
  const loser = machine.sources[other];
  if (winner?.kind === 'part-sheet') return `, because that ${winner.for} is fitted`;
  if (loser?.kind === 'part-sheet') return `, because the other ${loser.for} is not fitted yet`;
  return ', because it is named first';
}
