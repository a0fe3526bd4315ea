/** `schema`: the JSON Schema of the machine file. */
import { writeMachineSchema } from '../machine/schema.ts';
import type { Command } from './command.ts';

export const schema: Command = {
  name: 'schema',
  about: 'Write the JSON Schema of the machine file',
  takes: '',
  more: [
    'It is published as schema/machine.schema.json; an editor that knows JSON Schema then helps with a machine file.',
  ],
  options: [],
  example: { line: 'schema > schema/machine.schema.json', shows: 'the schema, published anew' },
  words: [0, 0],
  run: async () => writeMachineSchema(),
};
