/** Versions of a machine file written here, fetched once. */
import type { Version } from '../../draft/history.ts';
import { valueOfText } from '../machine-texts.ts';
import { fetchMachine, fetchVersions } from '../server.ts';

/** Most versions that are looked through, count: the newest ones. */
const MOST = 40;
const known = new Map<string, Version>();

/** The versions of a machine, ascending; empty while the laptop does not answer, and for a shipped machine. */
export async function versionsOf(id: string): Promise<readonly Version[]> {
  const got = await fetchVersions(id);
  if (!got.ok) return [];
  const found = await Promise.all(
    got.body.slice(-MOST).map(async ({ version, savedAt }) => one(id, version, savedAt)),
  );
  return found.flatMap((version) => version ?? []);
}

async function one(id: string, version: number, savedAt: string | null): Promise<Version | null> {
  const key = `${id} ${version}`;
  const had = known.get(key);
  if (had) return had;
  const got = await fetchMachine(id, version);
  const value = got.ok ? valueOfText(got.body) : null;
  // A version that does not read has no figures to tell of.
  if (value === null) return null;
  const made = { version, savedAt, value };
  known.set(key, made);
  return made;
}
