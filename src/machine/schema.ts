/** The JSON Schema (2020-12) of the machine file, written from its definition. */
import { VERSION } from './bring-up.ts';
import { machineFile } from './definition.ts';
import type { Defs, Schema } from './shape.ts';

/** The schema as a plain object. */
export function machineSchema(): Schema {
  const defs: Defs = new Map();
  const root = machineFile.schema(defs);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: `urn:chargewright:machine:${VERSION}`,
    title: 'Machine file',
    description:
      'One motorcycle as its mechanic knows it. Quantities are texts with units, as a person would write them; every figure names its source. Written from the program; do not edit.',
    ...root,
    $defs: Object.fromEntries([...defs].sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

/** The schema as the text that is published in schema/machine.schema.json. */
export function writeMachineSchema(): string {
  return `${JSON.stringify(machineSchema(), null, 2)}\n`;
}
