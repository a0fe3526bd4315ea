/** Parts that block themselves or one another in a ring, and names that lead nowhere or stand twice. */
import type { Checkable } from './blunder.ts';
import type { Finding } from './finding.ts';
import { nearest } from './nearest.ts';
import { memberPath } from './problem.ts';

const at = (section: string, id: string) => memberPath(`$.${section}`, id);

export function partFindings(machine: Checkable): readonly Finding[] {
  const parts = machine.parts ?? {};
  const fasteners = machine.fasteners ?? {};
  const out: Finding[] = [];
  const add = (level: Finding['level'], path: string, what: string, why: string, lookUp: string) => {
    out.push({ level, topic: 'parts', path, what, why, lookUp });
  };
  const missing = (path: string, id: string, where: string, known: Readonly<Record<string, unknown>>) => {
    if (Object.hasOwn(known, id)) return;
    const near = nearest(id, Object.keys(known));
    const why = `Known under "${where}" are ${Object.keys(known).join(', ') || 'none'}`;
    const lookUp = near === null ? `Add it under "${where}", or correct the id` : `"${near}" may be meant`;
    add('doubt', path, `"${id}" is not among the ${where}`, why, lookUp);
  };
  for (const [id, part] of Object.entries(parts)) {
    const path = at('parts', id);
    part.blockedBy?.forEach((other, n) => {
      missing(`${path}.blockedBy[${n}]`, other, 'parts', parts);
    });
    // Without the section of fasteners the ids cannot be followed: the file is merely short.
    if (machine.fasteners)
      part.heldBy?.forEach((other, n) => {
        missing(`${path}.heldBy[${n}]`, other, 'fasteners', fasteners);
      });
  }
  if (machine.parts)
    for (const [id, { part }] of Object.entries(fasteners))
      if (part !== null) missing(`${at('fasteners', id)}.part`, part, 'parts', parts);
  for (const [id, { plug }] of Object.entries(machine.fluids ?? {}))
    if (plug !== null && machine.fasteners) missing(`${at('fluids', id)}.plug`, plug, 'fasteners', fasteners);

  for (const ring of rings(parts)) {
    const path = `${at('parts', ring[0]!)}.blockedBy`;
    const names = ring.map((id) => `"${id}"`);
    if (ring.length === 1) {
      add(
        'impossible',
        path,
        `${names[0]} is blocked by itself`,
        'It could never come off',
        'Take its own id out',
      );
      continue;
    }
    const what = `${names.join(', ')} block one another in a ring`;
    const why = `${[...ring, ring[0]!].join(' waits for ')}, so none of them could ever come off`;
    add('impossible', path, what, why, 'Look up which of them comes off first');
  }
  const named = new Map<string, string>();
  for (const [id, { name }] of Object.entries(parts)) {
    const plain = name
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim();
    const first = named.get(plain);
    if (first === undefined) named.set(plain, id);
    else {
      const why = `"${first}" and "${id}" are both called "${name}"`;
      add(
        'doubt',
        at('parts', id),
        'two parts have one name',
        why,
        'Take one out, or tell them apart by name',
      );
    }
  }
  return out;
}

/** Every ring of parts that wait for one another, each once, from the part named first in the file. */
function rings(parts: NonNullable<Checkable['parts']>): readonly (readonly string[])[] {
  const out: string[][] = [];
  const done = new Set<string>();
  const trail: string[] = [];
  const walk = (id: string): void => {
    const start = trail.indexOf(id);
    if (start >= 0) {
      const ring = trail.slice(start);
      const key = [...ring].sort().join();
      if (!out.some((known) => [...known].sort().join() === key)) out.push(ring);
      return;
    }
    if (done.has(id)) return;
    trail.push(id);
    for (const next of parts[id]?.blockedBy ?? []) if (Object.hasOwn(parts, next)) walk(next);
    trail.pop();
    done.add(id);
  };
  for (const id of Object.keys(parts)) walk(id);
  return out;
}
