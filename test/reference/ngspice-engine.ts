/** ngspice as the npm package `eecircuit-engine` brings it: one instance, one netlist after another. */
import { Simulation } from 'eecircuit-engine';
import type { Vectors } from './ngspice-measure.ts';

export interface Ngspice {
  /** Runs a netlist. Throws when the simulator complains of anything: it would otherwise hand out the last result again. */
  readonly run: (netlist: string) => Promise<Vectors>;
  /** First line the simulator says of itself. */
  readonly version: string;
}

/** Starts an instance (some 440 MB, about a second). */
export async function openNgspice(): Promise<Ngspice> {
  const simulation = new Simulation();
  await simulation.start();
  let last = 0;
  return {
    version: /ngspice-\S+/.exec(simulation.getInitInfo())?.[0] ?? 'ngspice',
    run: async (netlist) => {
      simulation.setNetList(netlist);
      const result = await simulation.runSim();
      const complaints = simulation
        .getError()
        .slice(last)
        .filter((line) => line.trim() !== '');
      last = simulation.getError().length;
      if (complaints.length > 0) throw new Error(`ngspice: ${complaints.join('; ')}`);
      if (result.dataType !== 'real') throw new Error('ngspice: the result is not a transient');
      return new Map(result.data.map(({ name, values }) => [name, values]));
    },
  };
}
