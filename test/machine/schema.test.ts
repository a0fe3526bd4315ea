import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readMachine } from '../../src/machine/read-machine.ts';
import { machineSchema, writeMachineSchema } from '../../src/machine/schema.ts';

type Node = { readonly [key: string]: unknown };
const schema = machineSchema() as Node;
const defs = schema.$defs as Record<string, Node>;

/** Follows `$ref`. */
function solid(node: Node): Node {
  const ref = node.$ref as string | undefined;
  return ref === undefined ? node : { ...solid(defs[ref.replace('#/$defs/', '')]!), ...node };
}

/** Just enough of JSON Schema 2020-12 to hold a file against this schema: it knows every keyword used in it. */
function fits(value: unknown, raw: Node): boolean {
  const s = solid(raw);
  const known = new Set(
    'type properties required additionalProperties items maxItems minLength maxLength pattern enum minimum maximum multipleOf propertyNames minProperties oneOf description examples $ref $schema $id title $defs'.split(
      ' ',
    ),
  );
  for (const keyword of Object.keys(s)) if (!known.has(keyword)) throw new Error(`keyword ${keyword}`);
  if (s.enum && !(s.enum as unknown[]).includes(value)) return false;
  if (s.oneOf && (s.oneOf as Node[]).filter((one) => fits(value, one)).length !== 1) return false;
  if (s.type === 'string') {
    if (typeof value !== 'string') return false;
    const length = [...value].length;
    if (length < ((s.minLength as number) ?? 0) || length > ((s.maxLength as number) ?? 1e9)) return false;
    return s.pattern === undefined || new RegExp(s.pattern as string, 'u').test(value);
  }
  if (s.type === 'boolean') return typeof value === 'boolean';
  if (s.type === 'integer') {
    if (!Number.isInteger(value)) return false;
    const n = value as number;
    return (
      n >= (s.minimum as number) && n <= (s.maximum as number) && n % ((s.multipleOf as number) ?? 1) === 0
    );
  }
  if (s.type === 'array') return Array.isArray(value) && value.every((item) => fits(item, s.items as Node));
  if (s.type === 'object') {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
    const properties = (s.properties as Record<string, Node>) ?? {};
    if (Object.keys(value).length < ((s.minProperties as number) ?? 0)) return false;
    if (((s.required as string[]) ?? []).some((key) => !(key in value))) return false;
    return Object.entries(value).every(([key, inner]) => {
      const own =
        properties[key] ?? (s.additionalProperties === false ? null : (s.additionalProperties as Node));
      const named =
        s.propertyNames === undefined ||
        new RegExp((s.propertyNames as { pattern: string }).pattern, 'u').test(key);
      return own !== null && named && fits(inner, own);
    });
  }
  return true;
}

/** The file with a few entries of each list of its work: they are all of one make, and every member of it is spoilt. */
function thinned(file: Node): Node {
  const work = file.work as Record<string, Record<string, unknown> | unknown[]>;
  const few = Object.fromEntries(
    Object.entries(work).map(([name, list]) => [
      name,
      Array.isArray(list)
        ? list.slice(0, 2)
        : typeof list === 'object'
          ? Object.fromEntries(Object.entries(list).slice(0, 3))
          : list,
    ]),
  );
  return { ...file, work: few };
}

const folder = new URL('../../machines/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

describe('the published schema', () => {
  it('is what the definition writes (to publish: chargewright schema > schema/machine.schema.json)', () => {
    const published = readFileSync(new URL('../../schema/machine.schema.json', import.meta.url), 'utf8');
    expect(published).toBe(writeMachineSchema());
  });

  it('is JSON Schema 2020-12, and its references lead somewhere', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    const refs = [...writeMachineSchema().matchAll(/"\$ref": "#\/\$defs\/([^"]+)"/g)].map(
      (match) => match[1]!,
    );
    expect(refs.length).toBeGreaterThan(20);
    for (const ref of refs) expect(Object.keys(defs[ref] ?? {}), ref).not.toEqual([]);
    expect(new Set(refs)).toEqual(new Set(Object.keys(defs)));
  });

  it.each(files)('fits %s', (name) => {
    const file = JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Node;
    expect(fits(file, schema)).toBe(true);
    expect(file.$schema).toBe('../schema/machine.schema.json');
  });

  const RECORDS = new Set(['sources', 'parts', 'fasteners', 'chains', 'shims', 'fluids']);

  /**
   * Every way to spoil one member of the file: leave it out, rename it, or give it another type. Of the entries of one
   * record, or items of one list, that have the same member, the first is spoilt and stands for the others.
   */
  function* spoilt(
    value: unknown,
    put: (fresh: unknown) => unknown,
    place = '',
    seen = new Set<string>(),
  ): Generator<unknown> {
    if (typeof value !== 'object' || value === null) {
      if (seen.has(place)) return;
      seen.add(place);
      yield put(typeof value === 'string' ? 7 : 'seven');
      yield put(null);
      return;
    }
    const fresh = !seen.has(place);
    seen.add(place);
    if (Array.isArray(value)) {
      if (fresh) yield put({});
      for (const [n, item] of value.entries())
        yield* spoilt(item, (other) => put(value.with(n, other)), `${place}[]`, seen);
      return;
    }
    if (fresh) {
      yield put([]);
      yield put({ ...value, stranger: 1 });
    }
    for (const [key, inner] of Object.entries(value)) {
      const within = `${place}.${RECORDS.has(place.slice(1)) ? '*' : key}`;
      const { [key]: _, ...rest } = value as Node;
      if (!seen.has(within)) yield put(rest);
      yield* spoilt(inner, (other) => put({ ...value, [key]: other }), within, seen);
    }
  }

  it.each(files)(
    'and the reader agree on every member of %s that is left out, added or of another type',
    (name) => {
      const file = thinned(JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Node);
      let refused = 0;
      for (const variant of spoilt(file, (fresh) => fresh)) {
        const read = readMachine(JSON.stringify(variant), name);
        const bySchema = fits(variant, schema);
        // What only the reader can know: a source that nobody names any more, and what contradicts itself.
        if (read.ok) expect(bySchema).toBe(true);
        if (!bySchema) expect(read.ok).toBe(false);
        if (!read.ok && bySchema) {
          for (const problem of read.problems)
            expect(problem.what).toMatch(/no source|contradict|tolerance|quoted/);
        }
        if (!bySchema) refused++;
      }
      expect(refused).toBeGreaterThan(300);
    },
  );
});
