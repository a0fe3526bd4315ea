/**
 * Devices that were let in. Each has a token of its own, of which only a hash is kept; the token itself is known to the
 * device alone. An invitation is a secret that holds ten minutes and lets one device in.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { explainFile, type FileWords } from '../disk/files-fault.ts';
import { makeFolder } from '../disk/make-folder.ts';
import { writeWhole } from './write-whole.ts';

/** How long an invitation holds, ms. */
export const INVITED_MS = 10 * 60_000;
/** Longest name of a device, count. In letters. */
export const MOST_NAME = 40;
/** Most devices, and tries at a secret within a minute from one address and from all. */
const MOST_DEVICES = 60;
const TRIES = { one: 8, all: 40, withinMs: 60_000 } as const;

export interface Device {
  readonly id: string;
  readonly name: string;
  /** ISO 8601 UTC. */
  readonly pairedAt: string;
}

interface KeptDevice extends Device {
  /** SHA-256 of the token, hex. */
  readonly token: string;
}

const NOT_LET_IN: FileWords = {
  notKept: 'the device was not let in',
  again: 'then pair it again with the same code',
  elsewhere: 'set CHARGEWRIGHT_HOME to',
};
const NOT_OUT: FileWords = {
  notKept: 'the device is shut out only until Chargewright is started anew',
  again: 'then shut it out again',
  elsewhere: 'set CHARGEWRIGHT_HOME to',
};

export type LetIn =
  | { readonly ok: true; readonly device: Device; readonly token: string }
  | { readonly ok: false; readonly status: 403 | 429; readonly why: string };

export interface Devices {
  readonly list: () => readonly Device[];
  /** A new invitation; the one before it no longer holds. */
  readonly invite: () => { readonly secret: string; readonly until: number };
  /** Lets a device in for a secret; `from` is where it asks from. */
  readonly letIn: (secret: string, name: string, from: string) => Promise<LetIn>;
  /** The device of a token; null for none. */
  readonly of: (token: string | undefined) => Device | null;
  /** Shuts a device out for good; false when there is none of that id. */
  readonly revoke: (id: string) => Promise<boolean>;
}

const hash = (text: string) => createHash('sha256').update(text).digest('hex');
const same = (a: string, b: string) =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

/** The devices kept in a file. `now` in ms since 1970. Throws where the file is there and is none of ours. */
export async function openDevices(file: string, now: () => number): Promise<Devices> {
  let kept = await readKept(file);
  let invited: { readonly secret: string; readonly until: number } | null = null;
  let tries: { readonly from: string; readonly at: number }[] = [];
  /** Shut out, though the disk would not take it yet: never let in by this program again. */
  const out = new Set<string>();
  let writing: Promise<unknown> = Promise.resolve();
  // Nobody is let in before the file says so: a device whose token was lost with the program would stand there for good.
  const keep = (change: (now: readonly KeptDevice[]) => readonly KeptDevice[], words: FileWords) => {
    const done = writing.then(async () => {
      const next = change(kept);
      try {
        await makeFolder(dirname(file), 0o700);
        await writeWhole(file, `${JSON.stringify({ devices: next }, null, 2)}\n`);
      } catch (error) {
        throw explainFile(dirname(file), error, words);
      }
      kept = next;
    });
    writing = done.catch(() => undefined);
    return done;
  };
  const plain = ({ token: _token, ...device }: KeptDevice): Device => device;
  return {
    list: () => kept.map(plain),
    invite: () => {
      const secret = randomBytes(16).toString('base64url');
      const until = now() + INVITED_MS;
      invited = { secret: hash(secret), until };
      return { secret, until };
    },
    letIn: async (secret, name, from) => {
      const at = now();
      tries = tries.filter((one) => at - one.at < TRIES.withinMs);
      if (tries.length >= TRIES.all || tries.filter((one) => one.from === from).length >= TRIES.one)
        return { ok: false, status: 429, why: 'Too many tries; wait a minute, then scan the code again.' };
      tries.push({ from, at });
      if (!invited || at > invited.until || !same(hash(secret), invited.secret))
        return {
          ok: false,
          status: 403,
          why: 'This code no longer holds: show a new one on the laptop, under Devices, and scan that.',
        };
      if (kept.length >= MOST_DEVICES)
        return {
          ok: false,
          status: 403,
          why: `There are ${MOST_DEVICES} devices already; shut one out first.`,
        };
      const invitation = invited;
      invited = null;
      const token = randomBytes(32).toString('base64url');
      const device = {
        id: randomBytes(6).toString('hex'),
        name: name.trim().slice(0, MOST_NAME) || 'a device',
        pairedAt: new Date(at).toISOString(),
      };
      try {
        await keep((now) => [...now, { ...device, token: hash(token) }], NOT_LET_IN);
      } catch (error) {
        // The code on the screen holds for another try.
        invited ??= invitation;
        throw error;
      }
      return { ok: true, device, token };
    },
    of: (token) => {
      if (token === undefined) return null;
      const asked = hash(token);
      const found = kept.find((device) => !out.has(device.id) && same(device.token, asked));
      return found ? plain(found) : null;
    },
    revoke: async (id) => {
      if (!kept.some((device) => device.id === id)) return false;
      // At once, whatever the disk says: the phone may be in a thief's hand.
      out.add(id);
      await keep((now) => now.filter((device) => device.id !== id), NOT_OUT);
      return true;
    },
  };
}

async function readKept(file: string): Promise<readonly KeptDevice[]> {
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw error;
  }
  const read = JSON.parse(text) as { readonly devices?: unknown };
  const devices = Array.isArray(read.devices) ? (read.devices as readonly KeptDevice[]) : [];
  return devices.filter((one) => typeof one?.token === 'string' && typeof one.id === 'string');
}
