/** The pages of docs that are made from the program are what the program makes. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, test } from 'vitest';
import { machineFile } from '../../src/machine/definition.ts';
import { writeMachineWords } from '../../src/machine/file-words.ts';
import type { Fields, Shape } from '../../src/machine/shape.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { probesFor } from '../../src/reading/probes.ts';
import { PURPOSES } from '../../src/reading/purpose.ts';
import { ROOT } from '../house/source-files.ts';
import { madePages } from './made-pages.ts';

const pages = madePages(ROOT);

describe('made pages (to publish them anew: npm run docs)', () => {
  it.each([...pages.keys()])('%s is current', (path) => {
    expect(readFileSync(join(ROOT, path), 'utf8') === pages.get(path), `${path} differs: npm run docs`).toBe(
      true,
    );
  });

  it('has no drawing that no reading asks for', () => {
    const drawn = readdirSync(join(ROOT, 'docs/readings')).map((name) => `docs/readings/${name}`);
    expect(drawn.filter((path) => !pages.has(path))).toEqual([]);
  });
});

describe('the readings page', () => {
  const text = pages.get('docs/readings.md')!;

  test('has every kind of reading once, with what it is for', () => {
    expect(Object.keys(PURPOSES).sort()).toEqual(Object.keys(KINDS).sort());
    for (const { id, title } of Object.values(KINDS)) {
      expect(text.split(`\n### ${title}\n`).length, id).toBe(2);
      expect(text, id).toContain(PURPOSES[id]!.tells);
    }
  });

  test('has a drawing for every kind that takes tips or a clamp', () => {
    for (const { id } of Object.values(KINDS)) {
      const { red, black, around } = probesFor({ kind: id, state: {} });
      const tips = red !== null || black !== null || around !== null;
      expect(pages.has(`docs/readings/${id}.svg`), id).toBe(tips);
    }
  });

  test('says what can hurt before what to do', () => {
    const sections = text.split('\n### ').slice(2);
    for (const section of sections) {
      const caution = section.lastIndexOf('> **Caution.**');
      expect(caution, section.slice(0, 40)).toBeLessThan(section.indexOf('\n1. '));
    }
    expect(sections).toHaveLength(Object.keys(KINDS).length);
  });
});

describe('the reference page of the machine file', () => {
  /** Names of all members, however deep, in the definition itself. */
  function members(shape: Shape<unknown>): readonly string[] {
    const { form } = shape;
    const inside = (fields: Fields) =>
      Object.entries(fields).flatMap(([name, field]) => [name, ...members(field.shape)]);
    if (form.kind === 'object') return inside(form.fields);
    if (form.kind === 'tagged') return Object.values(form.variants).flatMap(inside);
    return form.kind === 'record' || form.kind === 'list' ? members(form.item) : [];
  }

  const text = writeMachineWords();

  test('has a row for every member', () => {
    const names = new Set(members(machineFile));
    expect(names.size).toBeGreaterThan(100);
    for (const name of names) expect(text).toContain(`| \`${name}\` | `);
  });

  test('says of each whether it must be there, and has five cells in every row', () => {
    const rows = text.split('\n').filter((line) => line.startsWith('| '));
    for (const row of rows) expect(row.split(/(?<!\\)\|/), row).toHaveLength(7);
    const must = rows.map((row) => row.split(/(?<!\\)\|/)[4]!.trim());
    expect(new Set(must)).toEqual(new Set(['must it be there', '**yes**', 'no']));
  });
});
