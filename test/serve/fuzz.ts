/** Requests that nobody would send, by the thousand: odd paths, verbs, headers and bodies, some of them nearly right. */
import { demoJob } from '../../src/job/demo.ts';
import { openStream, type Stream } from '../../src/numbers/random.ts';
import type { Garage } from './garage.ts';

const VERBS = ['GET', 'POST', 'PUT', 'DELETE', 'PATCH', 'HEAD', 'OPTIONS'];
const PATHS = [
  '/',
  '/index.html',
  '/sw.js',
  '/api',
  '/api/health',
  '/api/jobs',
  '/api/jobs/demo-ferry-run',
  '/api/jobs/demo-ferry-run/events',
  '/api/jobs/demo-ferry-run/machine',
  '/api/jobs/none/stream',
  '/api/machines',
  '/api/machines/ardmoor-650-pathway',
  '/api/machines/my-bike',
  '/api/machines/my-bike/versions',
  '/api/machines/my-bike/read',
  '/api/machines/my-bike/pack.zip',
  `/api/photos/${'ab'.repeat(32)}`,
  '/api/photos/none',
  '/api/devices',
  '/api/devices/door',
  '/api/devices/invite',
  '/api/devices/x/out',
  '/api/pair',
  '/assets/main-abc123.js',
];
const TAILS = [
  '',
  '',
  '',
  '/..',
  '/../../secret.txt',
  '/%2e%2e/%2e%2e/etc/passwd',
  '%00',
  '?since=-1',
  '?since=1e9',
  '?version=0',
  '?version=99999',
  '//',
  '/%',
  '/\\..\\secret.txt',
  `?a=${'x'.repeat(300)}`,
];
const TYPES = [
  'application/json',
  'application/json; charset=utf-8',
  'text/plain',
  '',
  'image/jpeg',
  'multipart/form-data',
];

export interface FuzzCount {
  readonly sent: number;
  /** Answers by status. */
  readonly statuses: ReadonlyMap<number, number>;
  /** Requests that were answered with 500 and more, or not at all. */
  readonly bad: readonly string[];
}

const pick = <T>(random: Stream, from: readonly T[]): T => from[Math.floor(from.length * random())]!;

function value(random: Stream, depth: number): unknown {
  const kind = Math.floor(9 * random());
  if (kind === 0) return null;
  if (kind === 1) return random() < 0.5;
  if (kind === 2) return (random() - 0.5) * 10 ** Math.floor(20 * random());
  if (kind === 3)
    return String.fromCharCode(
      ...Array.from({ length: Math.floor(12 * random()) }, () => Math.floor(0x2fff * random())),
    );
  if (kind === 4) return 'x'.repeat(Math.floor(5000 * random()));
  if (depth > 3) return 0;
  if (kind < 7) return Array.from({ length: Math.floor(4 * random()) }, () => value(random, depth + 1));
  return Object.fromEntries(
    Array.from({ length: Math.floor(5 * random()) }, () => [
      pick(random, ['id', 'job', 'type', '__proto__', 'open', 'text', 'secret', 'constructor', 'at']),
      value(random, depth + 1),
    ]),
  );
}

/** A real event with one field spoiled: it goes deeper than noise does. */
function spoiled(random: Stream): unknown {
  const event: Record<string, unknown> = { ...pick(random, demoJob()) };
  event[pick(random, Object.keys(event))] = value(random, 1);
  return random() < 0.5 ? event : [event];
}

function bodyOf(random: Stream): string {
  const kind = random();
  if (kind < 0.1) return '{"cut": ';
  if (kind < 0.15) return '['.repeat(20_000);
  return JSON.stringify(kind < 0.6 ? spoiled(random) : value(random, 0)) ?? '';
}

/** Sends `count` requests from a seed. Streams that would never end are closed by asking for jobs that are not there. */
export async function fuzz(garage: Garage, count: number, seed: number): Promise<FuzzCount> {
  const random = openStream(seed);
  const statuses = new Map<number, number>();
  const bad: string[] = [];
  for (let n = 0; n < count; n++) {
    const method = pick(random, VERBS);
    const path = `${pick(random, PATHS)}${pick(random, TAILS)}`;
    const type = pick(random, TYPES);
    const body = method === 'GET' || method === 'HEAD' ? undefined : bodyOf(random);
    const headers: Record<string, string> = type === '' ? {} : { 'content-type': type };
    if (random() < 0.1) headers.origin = 'https://evil.example';
    if (random() < 0.05) headers.host = 'evil.example';
    const told = `${method} ${path} ${(body ?? '').slice(0, 120)}`;
    try {
      const { status } = await garage.ask(path, { method, headers, ...(body === undefined ? {} : { body }) });
      statuses.set(status, (statuses.get(status) ?? 0) + 1);
      if (status >= 500 && status !== 503) bad.push(`${status} ${told}`);
    } catch (error) {
      // A path that HTTP itself cannot carry never reaches the server.
      if (!/unescaped|ECONNRESET/.test(String(error))) bad.push(`${String(error)} ${told}`);
    }
  }
  return { sent: count, statuses, bad };
}
