/** `share`: a machine file as a pack to hand on. */
import { basename } from 'node:path';
import { packMachine } from '../press/machine-pack.ts';
import { writeNew } from '../press/write-new.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { openMachineFile } from './open-machine-file.ts';
import { Refusal } from './refusal.ts';
import { wrap } from './table.ts';

export const share: Command = {
  name: 'share',
  about: 'Pack a machine file to hand it on: the file, its drawings, what it is, check sums',
  takes: 'FILE',
  more: [
    'Nothing of any job is in the pack. Remarks and names of sources that were typed in free words are listed: look them over, for nobody’s name or number belongs in it. "import" takes the pack in again. A file that is there already is never overwritten.',
  ],
  options: [
    {
      name: '--out',
      value: 'TO.zip',
      about: 'where to write it; unless said the name of the file, in this folder',
    },
    { name: '--look', about: 'only say what would be in it; write nothing' },
    { name: '--json', about: 'write one JSON object: name, mark, files, texts, out' },
  ],
  example: {
    line: 'share --look machines/ardmoor-650-pathway.json',
    shows: 'what would be in the pack, and the remarks to look over',
  },
  words: [1, 1],
  run: async (given, world) => {
    const file = await openMachineFile(given.words[0]!, world);
    const packed = packMachine(file.text, file.from);
    if (!packed.ok) throw new Refusal(packed.why);
    const { name, mark, files, texts, bytes } = packed;
    const plain = basename(given.words[0]!).replace(/\.(?:json|zip)$/i, '');
    const to = given.one('--out') ?? `${plain === '-' ? 'machine' : plain}.zip`;
    const look = given.has('--look');
    if (!look) {
      const written = await writeNew(to, bytes);
      if (!written.ok) throw new Refusal(written.why);
    }
    if (given.has('--json'))
      return `${JSON.stringify({ name, mark, files, texts, out: look ? null : to })}\n`;
    const drawings = files.filter((one) => one.startsWith('drawings/')).length;
    const lines = [
      `${look ? 'It would hold' : `Wrote ${to}:`} ${name}${file.invented ? ' (invented)' : ''}, ${counted(drawings, 'drawing')}; ${Math.max(1, Math.round(bytes.length / 1000))} kB. The check marks it ${mark}.`,
    ];
    if (texts.length > 0)
      lines.push(
        'Typed in free words; look it over before you hand it on:',
        ...texts.map(({ path, text }) => `${`  ${path}:`}\n${wrap(text.replace(/\s+/g, ' '), 4)}`),
      );
    return `${lines.join('\n')}\n`;
  },
};
