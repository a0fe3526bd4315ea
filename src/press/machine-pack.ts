/**
 * One machine file as a zip to hand on: the file itself, always written the same way, its drawings, a few lines of what it is,
 * and check sums. Nothing of any job is in it. What its writer typed as a remark is kept, and listed, so that the one who
 * hands it on can look it over first. The same file makes the same bytes.
 */
import { type FreeText, freeTexts } from '../draft/free-texts.ts';
import { standalone } from '../draw/palette.ts';
import { svgText } from '../draw/svg.ts';
import { bringUp } from '../machine/bring-up.ts';
import type { Machine } from '../machine/definition.ts';
import { readJson } from '../machine/json-text.ts';
import { type Json, jsonOf, putAt, writeJson } from '../machine/json-value.ts';
import { judgeFile, type Mark } from '../machine/judge-file.ts';
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';
import { drawingsOfMachine, type MachineDrawing } from '../paper/machine-drawings.ts';
import { withSums } from './sums.ts';
import { utf8, writeZip } from './zip-write.ts';

/** Version of the format that is written and the highest that is read, no unit. */
export const MACHINE_PACK_VERSION = 1;
export const MACHINE_PACK_FORMAT = 'chargewright-machine';
export const MACHINE_PACK_HEAD = 'pack.json';

/** `pack.json`: what the file is, without reading on. */
export interface MachinePackHead {
  readonly format: typeof MACHINE_PACK_FORMAT;
  readonly version: number;
  /** Maker and model. */
  readonly name: string;
  readonly year: number;
  readonly invented: boolean;
}

export type MachinePacked =
  | {
      readonly ok: true;
      readonly bytes: Uint8Array;
      readonly name: string;
      readonly mark: Mark;
      readonly files: readonly string[];
      /** To be looked over before it is handed on: nobody's name or number belongs in it. */
      readonly texts: readonly FreeText[];
    }
  | { readonly ok: false; readonly why: string };

/** The value of a machine file's text, brought up to this version; null where it is no JSON at all. */
export function fileValue(text: string): Json | null {
  const { root } = readJson(text);
  return root === null ? null : jsonOf(bringUp(root));
}

/** Packs the text of a machine file; `fileName` is only for the messages. A file that cannot be read is not handed on. */
export function packMachine(text: string, fileName: string): MachinePacked {
  const read = readMachine(text, fileName);
  const value = fileValue(text);
  if (!read.ok || value === null) {
    const first = read.ok ? null : read.problems[0];
    const why = first ? writeProblem(first) : `${fileName} cannot be read.`;
    return { ok: false, why: `${why} Mend it first: others could not open it.` };
  }
  const { machine } = read;
  const { maker, model, year, invented } = machine.about;
  const name = `${maker} ${model}`;
  const { mark } = judgeFile(text, fileName);
  // Where the schema lies is a matter of the computer it was written on.
  const shared = putAt(value, ['$schema'], undefined) ?? value;
  const head: MachinePackHead = {
    format: MACHINE_PACK_FORMAT,
    version: MACHINE_PACK_VERSION,
    name,
    year,
    invented,
  };
  const drawings = drawingsOfMachine(machine);
  const files = new Map<string, Uint8Array>([
    [MACHINE_PACK_HEAD, utf8(`${JSON.stringify(head, null, 2)}\n`)],
    ['machine.json', utf8(writeJson(shared))],
    ['read-me.txt', utf8(readMe(machine, mark, drawings))],
  ]);
  for (const { name: drawn, drawing } of drawings)
    files.set(`drawings/${drawn}.svg`, utf8(`${svgText(standalone(drawing, 'paper'))}\n`));
  return {
    ok: true,
    bytes: writeZip(withSums(files), 'pack'),
    name,
    mark,
    files: [...files.keys()].sort(),
    texts: freeTexts(shared),
  };
}

const MARKS: Readonly<Record<Mark, string>> = {
  clean: 'The check found nothing amiss.',
  doubt: 'The check has doubts: look at them before the first spanner.',
  danger: 'The check found what is dangerous as written: look at it before the first spanner.',
  impossible: 'The check found what no bike can have: it is to be mended.',
  broken: 'It cannot be read whole.',
};

function readMe({ about, sources }: Machine, mark: Mark, drawings: readonly MachineDrawing[]): string {
  const lines = [
    `${about.maker} ${about.model}, ${about.year}`,
    '',
    ...(about.invented ? ['INVENTED: no such bike exists, and no figure of it is true of any.', ''] : []),
    'This is a machine file of Chargewright: what a mechanic knows of one bike, each figure with who says it.',
    'The book of your own bike comes first: hold every figure against it before you go by it.',
    MARKS[mark],
    '',
    'Who says the figures:',
    ...Object.entries(sources).map(([id, { kind, title }]) => `  ${id}: ${title} (${kind})`),
    '',
    'What is in the zip:',
    '  machine.json: the machine file; import it, or the whole zip',
    '  pack.json: what the zip is',
    ...drawings.map(({ name, about: what }) => `  drawings/${name}.svg: ${what}`),
    '  SHA256SUMS: check sums, "sha256sum -c SHA256SUMS" checks them',
    '',
    'To take it in: chargewright import NAME.zip, or the page of machines in the app. Nothing that is there already is overwritten.',
  ];
  return `${lines.join('\n')}\n`;
}
