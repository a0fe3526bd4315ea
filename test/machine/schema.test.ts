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

  /** Every way to spoil one member of the file: leave it out, rename it, or give it another type. */
  function* spoilt(value: unknown, put: (fresh: unknown) => unknown): Generator<unknown> {
    if (typeof value !== 'object' || value === null) {
      yield put(typeof value === 'string' ? 7 : 'seven');
      yield put(null);
      return;
    }
    if (Array.isArray(value)) {
      yield put({});
      for (const [n, item] of value.entries()) yield* spoilt(item, (fresh) => put(value.with(n, fresh)));
      return;
    }
    yield put([]);
    yield put({ ...value, stranger: 1 });
    for (const [key, inner] of Object.entries(value)) {
      const { [key]: _, ...rest } = value as Node;
      yield put(rest);
      yield* spoilt(inner, (fresh) => put({ ...value, [key]: fresh }));
    }
  }

  it.each(files)(
    'and the reader agree on every member of %s that is left out, added or of another type',
    (name) => {
      const file = JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Node;
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
