/** `schema`: the JSON Schema of the machine file, or the same for people to read. */
import { writeMachineWords } from '../machine/file-words.ts';
import { writeMachineSchema } from '../machine/schema.ts';
import type { Command } from './command.ts';

export const schema: Command = {
  name: 'schema',
  about: 'Write the JSON Schema of the machine file, or its reference page',
  takes: '',
  more: [
    'It is published as schema/machine.schema.json; an editor that knows JSON Schema then helps with a machine file.',
  ],
  options: [
    { name: '--words', about: 'write the same for people to read, as Markdown: every member in a table' },
  ],
  example: { line: 'schema > schema/machine.schema.json', shows: 'the schema, published anew' },
  words: [0, 0],
  run: async (given) => (given.has('--words') ? writeMachineWords() : writeMachineSchema()),
};
