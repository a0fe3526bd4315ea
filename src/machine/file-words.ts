/**
 * The reference page of the machine file, written from its definition: a section for each part of the file, a row for
 * each of its members. Markdown, CommonMark with tables; published as docs/machine-file.md.
 */
import { VERSION } from './bring-up.ts';
import { machineFile } from './definition.ts';
import type { Form } from './form.ts';
import type { Field, Fields, Shape } from './shape.ts';

/** A part of the file that has members of its own, and every place where it stands. */
interface Part {
  readonly paths: string[];
  readonly about: string;
  readonly form: Form & { readonly kind: 'object' | 'tagged' };
  readonly example: string;
}

/** What a shape holds in the end: a record or list holds entries, a figure holds its value. */
interface Inner {
  readonly shape: Shape<unknown>;
  readonly path: string;
}

const ID = '<id>';

/** The entry of a record or list, however deep; the shape itself when it is neither. */
function entryOf({ shape, path }: Inner): Inner {
  if (shape.form.kind === 'record') return entryOf({ shape: shape.form.item, path: `${path}.${ID}` });
  if (shape.form.kind === 'list') return entryOf({ shape: shape.form.item, path: `${path}[]` });
  return { shape, path };
}

/** The fields or variants themselves: two shapes that share them are the same part, whatever they are called. */
function identity(form: Form): unknown {
  return form.kind === 'tagged' ? form.variants : form.kind === 'object' ? form.fields : form;
}

function fieldsOf(form: Form): readonly Fields[] {
  if (form.kind === 'object') return [form.fields];
  return form.kind === 'tagged' ? Object.values(form.variants) : [];
}

/** Every part in the order in which a reader meets it: a part, then the parts inside it. */
function partsOf(root: Shape<unknown>): ReadonlyMap<unknown, Part> {
  const parts = new Map<unknown, Part>();
  const visit = (shape: Shape<unknown>, path: string, about: string): void => {
    const { form } = shape;
    if (form.kind !== 'object' && form.kind !== 'tagged') return;
    const known = parts.get(identity(form));
    if (known) {
      known.paths.push(path);
      return;
    }
    parts.set(identity(form), { paths: [path], about, form, example: shape.example });
    for (const fields of fieldsOf(form))
      for (const [name, field] of Object.entries(fields)) {
        const inner = entryOf({ shape: field.shape, path: path === '' ? name : `${path}.${name}` });
        visit(inner.shape, inner.path, field.about);
      }
  };
  visit(root, '', '');
  return parts;
}

/** What a heading is called in a link: as the usual readers of Markdown make it. */
function anchor(path: string): string {
  return path.toLowerCase().replace(/[^\w-]/g, '');
}

/** Text inside a table: a bar would end the cell. */
const cell = (words: string): string => words.replaceAll('|', '\\|');
const code = (text: string): string => `\`${cell(text)}\``;
const link = (path: string): string => `[${code(path)}](#${anchor(path)})`;

/** Unit and bounds of what stands there. */
function holds(shape: Shape<unknown>, parts: ReadonlyMap<unknown, Part>): string {
  const { form } = shape;
  switch (form.kind) {
    case 'object':
    case 'tagged':
      return `see ${link(parts.get(identity(form))!.paths[0]!)}`;
    case 'figure':
      return `figure: ${figureHolds(form.fields, parts)}`;
    case 'record':
      return `entries under ids; ${holds(form.item, parts)}`;
    case 'list':
      return `list, at most ${form.most}: ${holds(form.item, parts)}`;
    case 'quantity':
      return `${form.bounds}${form.range ? '; a range may stand here' : ''}`;
    case 'gauge':
      return 'AWG 4 to 24, or 0.2 to 25 mm² of copper';
    case 'text':
      return `text, at most ${form.longest} characters`;
    case 'choice':
      return form.words.map((word) => code(JSON.stringify(word))).join(', ');
    case 'numbers':
      return form.numbers.map(String).join(' or ');
    case 'count':
      return `a whole ${form.step === 2 ? 'even ' : ''}number, ${form.low} to ${form.high}`;
    case 'flag':
      return '`true` or `false`';
    case 'source':
      return `an id under ${link(`sources.${ID}`)}`;
  }
}

/** Inside a figure: its value alone needs no name. */
function figureHolds(fields: Fields, parts: ReadonlyMap<unknown, Part>): string {
  return Object.entries(fields)
    .map(([name, field], n) =>
      n === 0 ? holds(field.shape, parts) : `${code(name)} ${holds(field.shape, parts)}`,
    )
    .join('; ');
}

/** What is said of every quantity, once, at the top of the page. */
const UNIT_WORDS = 'with its unit';

/** What a member is, with what its value is where the figure says more. */
function says({ about, shape }: Field<unknown>): string {
  const { form } = shape;
  if (form.kind !== 'figure') return about;
  const [first, ...others] = Object.entries(form.fields);
  const more =
    first && first[1].about !== UNIT_WORDS && !listsValues(first[1].shape.form) ? [first[1].about] : [];
  return [about, ...more, ...others.map(([name, field]) => `${code(name)}: ${field.about}`)].join('; ');
}

/** "3 or 1" beside a column that lists 3 and 1 says nothing. */
function listsValues(form: Form): boolean {
  return form.kind === 'choice' || form.kind === 'numbers' || form.kind === 'flag' || form.kind === 'count';
}

/** An example short enough for a cell; a part with members of its own is shown in its section. */
function shows({ shape }: Field<unknown>): string {
  const { shape: inner } = entryOf({ shape, path: '' });
  return inner.form.kind === 'object' || inner.form.kind === 'tagged' ? '' : code(shape.example);
}

function table(fields: Fields, parts: ReadonlyMap<unknown, Part>): string {
  const rows = Object.entries(fields).map(([name, field]) => {
    const cells = [
      code(name),
      says(field),
      holds(field.shape, parts),
      field.needed ? '**yes**' : 'no',
      shows(field),
    ];
    return `| ${cells.join(' | ')} |`;
  });
  return [
    '| member | what | unit and bounds | must it be there | example |',
    '|---|---|---|---|---|',
    ...rows,
  ].join('\n');
}

/** Kinds of a tagged part that take the same members stand in one table. */
function variantTables(
  variants: Readonly<Record<string, Fields>>,
  parts: ReadonlyMap<unknown, Part>,
): readonly string[] {
  const alike = new Map<string, { kinds: string[]; fields: Fields }>();
  for (const [kind, fields] of Object.entries(variants)) {
    const names = Object.keys(fields).join();
    const group = alike.get(names) ?? { kinds: [], fields };
    group.kinds.push(code(JSON.stringify(kind)));
    alike.set(names, group);
  }
  return [
    `\`kind\` must be there: ${Object.keys(variants)
      .map((kind) => code(JSON.stringify(kind)))
      .join(', ')}.`,
    ...[...alike.values()].flatMap(({ kinds, fields }) => [
      `With kind ${kinds.join(', ')}:`,
      table(fields, parts),
    ]),
  ];
}

function section(part: Part, parts: ReadonlyMap<unknown, Part>): readonly string[] {
  const [path, ...others] = part.paths;
  const heading = `${path!.includes('.') ? '###' : '##'} \`${path}\``;
  const also = others.length === 0 ? '' : ` The same under ${others.map(code).join(', ')}.`;
  const entry = /(\.<id>|\[\])$/.test(path!) ? 'One entry of: ' : '';
  return [
    heading,
    `${entry}${entry === '' ? part.about.replace(/^./, (c) => c.toUpperCase()) : part.about}.${also}`,
    ...(part.form.kind === 'tagged'
      ? variantTables(part.form.variants, parts)
      : [table(part.form.fields, parts)]),
  ];
}

/** Members that every figure has beside its value, read off any figure of the definition. */
function figureSection(parts: ReadonlyMap<unknown, Part>): readonly string[] {
  const found = [...parts.values()]
    .flatMap(({ form }) => fieldsOf(form))
    .flatMap((fields) => Object.values(fields));
  const example = found.find(({ shape }) => shape.form.kind === 'figure' && shape.example.includes('"at"'))!;
  return [
    '## A figure',
    'Where the third column says "figure", write an object: the value as `is`, and who says so as `from`.',
    `\`\`\`json\n${example.shape.example}\n\`\`\``,
    [
      '- `from` is the id of an entry under `sources`. It must be there.',
      '- `page` says where in the source, `date` when it was read or measured, `note` anything else. They may be left out.',
      '- `also` is a list of what other sources say of the same figure. Each has the same members as the figure. Nothing is averaged. For a new part, its own sheet counts.',
    ].join('\n'),
  ];
}

/** The page, Markdown. */
export function writeMachineWords(): string {
  const parts = partsOf(machineFile);
  const [root, ...others] = parts.values();
  if (root?.form.kind !== 'object') throw new RangeError('machine file: its definition must be an object');
  const blocks = [
    '# The machine file, member by member',
    `Version ${VERSION} of the format. Written from the program by \`npm run docs\`; do not edit.`,
    'For filling one in for the first time, read [your own bike](own-bike.md). The same as JSON Schema, for editors: [schema/machine.schema.json](../schema/machine.schema.json). Three invented bikes are in [machines](../machines).',
    '## How to write things',
    [
      '- A quantity is a text with its unit, as a person writes it: `"7–9 lbf·ft"`, `"5/8 in"`, `"17.0 V ± 10 %"`. Any usual unit will do.',
      '- Counts, years, `true` and `false` stand without quotes.',
      `- \`${ID}\` is a name that you choose: up to 40 small letters, digits and single hyphens, such as \`owners-book\`.`,
      '- A member that need not be there is left out, never left empty.',
      '- The bounds are what the program takes at all. Whether a figure is right for the bike, its book says.',
    ].join('\n'),
    ...figureSection(parts),
    '## The whole file',
    table(root.form.fields, parts),
    ...others.flatMap((part) => section(part, parts)),
  ];
  return `${blocks.join('\n\n')}\n`;
}
