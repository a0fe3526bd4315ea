/** A machine file that comes from outside, as a pack or as plain JSON: nothing in it is believed before it was checked. */
import { isObject } from '../machine/json-value.ts';
import { judgeFile, type Mark } from '../machine/judge-file.ts';
import { writeProblem } from '../machine/problem.ts';
import { type Limits, MACHINE_BYTES, megabytes } from './limits.ts';
import {
  fileValue,
  MACHINE_PACK_FORMAT,
  MACHINE_PACK_HEAD,
  MACHINE_PACK_VERSION,
  type MachinePackHead,
} from './machine-pack.ts';
import { readJson, versionSentence } from './read-job-file.ts';
import { checkSums, SUMS } from './sums.ts';
import { type Entry, listZip, quoted, unzip } from './zip-read.ts';
import { fromUtf8 } from './zip-write.ts';

/** A machine pack: its file, some sixty drawings, a few lines. */
export const MACHINE_PACK_LIMITS: Limits = { zip: 8_000_000, unpacked: 20_000_000, entries: 100 };

export interface MachineFile {
  /** As it stands in the file. */
  readonly text: string;
  /** Maker and model; null where the text cannot be read. */
  readonly name: string | null;
  readonly invented: boolean;
  readonly mark: Mark;
  /** What keeps it from being read, a sentence each; empty where nothing does. */
  readonly problems: readonly string[];
}

export type MachineFileRead =
  | ({ readonly ok: true } & MachineFile)
  | { readonly ok: false; readonly why: string };

const KNOWN: ReadonlySet<string> = new Set([MACHINE_PACK_HEAD, 'machine.json', 'read-me.txt', SUMS]);
const DRAWING = /^drawings\/[a-z0-9-]{1,80}\.svg$/;

/** Whether the names in a zip are those of a machine pack. */
export function isMachinePack(names: ReadonlySet<string>): boolean {
  return names.has(MACHINE_PACK_HEAD) && names.has('machine.json');
}

/**
 * Reads a pack or the text of a machine file; `name` is for the messages, `thisYear` the year of the caller's clock. A file
 * with problems is read too, with its problems: one may want to mend it. Never throws on any bytes.
 */
export function readMachineFile(
  bytes: Uint8Array,
  name: string,
  thisYear: number | null = null,
): MachineFileRead {
  const refuse = (why: string): MachineFileRead => ({ ok: false, why: `${name} ${why}; nothing was kept.` });
  if (!looksZipped(bytes)) {
    if (bytes.length > MACHINE_BYTES)
      return refuse(`is larger than ${megabytes(MACHINE_BYTES)}, the most that a machine file may be`);
    const text = fromUtf8(bytes);
    if (text === null) return refuse('is neither a zip nor text in UTF-8: name a machine file, or its pack');
    return told(text.replace(/^\ufeff/, ''), name, thisYear);
  }
  const listed = listZip(bytes, MACHINE_PACK_LIMITS);
  if (!listed.ok) return refuse(listed.why);
  return readMachinePack(bytes, listed.entries, name, thisYear);
}

/** Reads what was listed of a pack. */
function readMachinePack(
  bytes: Uint8Array,
  entries: readonly Entry[],
  name: string,
  thisYear: number | null,
): MachineFileRead {
  const refuse = (why: string): MachineFileRead => ({ ok: false, why: `${name} ${why}; nothing was kept.` });
  if (!isMachinePack(new Set(entries.map((entry) => entry.name))))
    return refuse(
      `is a zip, but of something else: it lacks ${MACHINE_PACK_HEAD} or machine.json, so name one that Chargewright wrote`,
    );
  const stranger = entries.find((entry) => !KNOWN.has(entry.name) && !DRAWING.test(entry.name));
  if (stranger)
    return refuse(`holds ${quoted(stranger.name)}, which does not belong in a machine pack: take it out`);
  const huge = entries.find((entry) => entry.name === 'machine.json' && entry.size > MACHINE_BYTES);
  if (huge) return refuse(`has a machine.json that is larger than ${megabytes(MACHINE_BYTES)}`);
  const unzipped = unzip(bytes, entries);
  if (!unzipped.ok) return refuse(unzipped.why);
  const { files } = unzipped;
  const damaged = checkSums(files);
  if (damaged !== null) return refuse(damaged);
  const head = readJson(fromUtf8(files.get(MACHINE_PACK_HEAD)!) ?? '') as
    | Partial<MachinePackHead>
    | null
    | undefined;
  if (typeof head !== 'object' || head?.format !== MACHINE_PACK_FORMAT || typeof head.version !== 'number')
    return refuse(`has a ${MACHINE_PACK_HEAD} that Chargewright did not write: share it again`);
  if (head.version !== MACHINE_PACK_VERSION)
    return refuse(versionSentence(head.version, MACHINE_PACK_VERSION));
  const text = fromUtf8(files.get('machine.json')!);
  if (text === null) return refuse('has a machine.json that is no text in UTF-8: share it again');
  return told(text, name, thisYear);
}

function told(text: string, name: string, thisYear: number | null): MachineFileRead {
  const { mark, problems, machine } = judgeFile(text, name, thisYear);
  if (!isObject(fileValue(text) ?? undefined))
    return { ok: false, why: `${name} is no machine file: there is no JSON object in it; nothing was kept.` };
  return {
    ok: true,
    text,
    name: machine === null ? null : `${machine.about.maker} ${machine.about.model}`,
    invented: machine?.about.invented ?? false,
    mark,
    problems: problems.map(writeProblem),
  };
}

function looksZipped(bytes: Uint8Array): boolean {
  return bytes.length >= 2 && bytes[0] === 0x50 && bytes[1] === 0x4b;
}
