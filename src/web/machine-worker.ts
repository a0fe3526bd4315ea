/** The worker behind the machine pages: writes the file, looks it over and draws its loop, so that no key waits for any of it. */

import { drawLoop } from '../draw/loop.ts';
import { svgText } from '../draw/svg.ts';
import { MEMBERS, type Member } from '../fault/catalogue.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import type { Machine } from '../machine/definition.ts';
import { type Json, writeJson } from '../machine/json-value.ts';
import { type FileJudged, judgeFile } from '../machine/judge-file.ts';
import { valueOfText } from './machine-texts.ts';

export interface LookAsk {
  readonly id: number;
  /** The file as it was typed, or as a value that is to be written. */
  readonly file: { readonly text: string } | { readonly value: Json };
  readonly name: string;
  readonly year: number;
}

export interface Looked {
  readonly id: number;
  readonly text: string;
  /** What the text says, for a text that was typed: null where it does not read as an object; not there otherwise. */
  readonly value?: Json | null;
  readonly judged: Omit<FileJudged, 'machine'>;
  /** The loop as SVG text; null while the charging circuit does not read. */
  readonly loop: string | null;
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
const NOTHING = Object.fromEntries(MEMBERS.map((member) => [member, 0])) as Record<Member, number>;

function loopOf(machine: Machine | null): string | null {
  if (machine === null) return null;
  const { alternator, regulator, loadsFedFrom } = chargingSpec(machine);
  const { battery, fuse } = machine.charging;
  return svgText(
    drawLoop({
      phases: alternator.phases,
      regulator: regulator.kind,
      senses: regulator.senses,
      loadsFedFrom,
      suspicion: NOTHING,
      proven: [],
      plain: true,
      readings: {
        stator: machine.charging.alternator.ratedAmps.is.text,
        regulator: machine.charging.regulator.chargeVolts.is.text,
        battery: battery.capacity.is.text,
        breaker: fuse.is.text,
      },
      // Beside the fields there is room for the narrow one only.
      shape: 'narrow',
    }),
  );
}

scope.addEventListener('message', (event: MessageEvent<LookAsk>) => {
  const { id, file, name, year } = event.data;
  const text = 'text' in file ? file.text : writeJson(file.value);
  const { machine, ...judged } = judgeFile(text, name, year);
  const read = 'text' in file ? { value: valueOfText(text) } : {};
  scope.postMessage({ id, text, ...read, judged, loop: loopOf(machine) } satisfies Looked);
});
