/**
 * Reads a zip that may come from anywhere. Everything its directory claims is checked before a byte is inflated, and
 * inflating stops at the size that was claimed, so a small file cannot grow into the memory of this computer.
 *
 * A reader of our own: that of fflate hands on neither where an entry lies nor its check sum, writes on past a size
 * that lies (20 MB can stand for 20 GB), and takes entries that lie on top of each other.
 * Format: APPNOTE 6.3.10, without encryption, more than one volume, and zip64.
 */
import { crc32, inflateRawSync } from 'node:zlib';
import { type Limits, megabytes } from './limits.ts';
import type { Files } from './zip-write.ts';

export interface Entry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly crc: number;
  /** Where its bytes lie in the zip. */
  readonly from: number;
  readonly to: number;
  /** Size once unpacked as the directory has it, bytes. */
  readonly size: number;
}

/** `why` goes on from the name of the file: "is no zip: …". */
export type Listed =
  | { readonly ok: true; readonly entries: readonly Entry[] }
  | { readonly ok: false; readonly why: string };
export type Unzipped =
  | { readonly ok: true; readonly files: Files }
  | { readonly ok: false; readonly why: string };

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const END_SIZE = 22;
const CUT = 'is cut off or damaged: fetch it again from where it was made';

/** Lists what is in a zip, folders left out. Never throws on any bytes. */
export function listZip(bytes: Uint8Array, limits: Limits): Listed {
  if (bytes.length > limits.zip)
    return refuse(`is larger than ${megabytes(limits.zip)}, the most that is read`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  if (end === null) {
    const begins = bytes.length >= 4 && view.getUint32(0, true) === LOCAL;
    return refuse(begins ? CUT : 'is no zip: name one that Chargewright wrote');
  }
  const count = view.getUint16(end + 10, true);
  const start = view.getUint32(end + 16, true);
  if (view.getUint32(end + 4, true) !== 0 || count === 0xffff || start === 0xffffffff)
    return refuse('is in several volumes or larger than Chargewright writes any');
  if (count > limits.entries) return refuse(`holds ${count} files, and at most ${limits.entries} are read`);
  if (start + view.getUint32(end + 12, true) > end) return refuse(CUT);
  const entries: Entry[] = [];
  let at = start;
  for (let n = 0; n < count; n++) {
    const read = readEntry(bytes, view, at, start, end);
    if (!read.ok) return read;
    at = read.next;
    // A folder is nothing by itself; a program that packs anew may list it.
    if (!(read.entry.name.endsWith('/') && read.entry.size === 0)) entries.push(read.entry);
  }
  const fault = faultOf(entries, limits);
  return fault === null ? { ok: true, entries } : refuse(fault);
}

/** Unpacks what was listed. Never throws on any bytes. */
export function unzip(bytes: Uint8Array, entries: readonly Entry[]): Unzipped {
  const files = new Map<string, Uint8Array>();
  for (const { name, method, crc, from, to, size } of entries) {
    const packed = bytes.subarray(from, to);
    const file = method === 0 ? packed : inflate(packed, size);
    if (file === null || file.length !== size || crc32(file) !== crc)
      return refuse(`${CUT} (${quoted(name)} in it cannot be unpacked)`);
    files.set(name, file);
  }
  return { ok: true, files };
}

function inflate(packed: Uint8Array, size: number): Uint8Array | null {
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, size) });
  } catch {
    return null;
  }
}

/** The end record, looked for from the back: behind it there is only a comment of the length it says. */
function findEnd(view: DataView): number | null {
  const last = view.byteLength - END_SIZE;
  for (let at = last; at >= 0 && at >= last - 0xffff; at--) {
    if (view.getUint32(at, true) === END && view.getUint16(at + 20, true) === last - at) return at;
  }
  return null;
}

type EntryRead =
  | { readonly ok: true; readonly entry: Entry; readonly next: number }
  | { readonly ok: false; readonly why: string };

function readEntry(bytes: Uint8Array, view: DataView, at: number, start: number, end: number): EntryRead {
  if (at + 46 > end || view.getUint32(at, true) !== CENTRAL) return refuse(CUT);
  const nameLength = view.getUint16(at + 28, true);
  const next = at + 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  if (next > end) return refuse(CUT);
  const rawName = bytes.subarray(at + 46, at + 46 + nameLength);
  const name = new TextDecoder().decode(rawName);
  const method = view.getUint16(at + 10, true);
  if ((view.getUint16(at + 8, true) & 1) !== 0 || (method !== 0 && method !== 8))
    return refuse(
      `holds ${quoted(name)} encrypted or packed in a way that is not read here: pack it as a plain zip`,
    );
  const packed = view.getUint32(at + 20, true);
  const size = view.getUint32(at + 24, true);
  const local = view.getUint32(at + 42, true);
  if (local + 30 > start || view.getUint32(local, true) !== LOCAL) return refuse(CUT);
  const localName = bytes.subarray(local + 30, local + 30 + view.getUint16(local + 26, true));
  const from = local + 30 + localName.length + view.getUint16(local + 28, true);
  // Two names for one entry, of which each program reads its own, is a known trick.
  if (from + packed > start || !Buffer.from(localName).equals(rawName)) return refuse(CUT);
  if (method === 0 && packed !== size) return refuse(CUT);
  return {
    ok: true,
    next,
    entry: { name, method, crc: view.getUint32(at + 16, true), from, to: from + packed, size },
  };
}

function faultOf(entries: readonly Entry[], limits: Limits): string | null {
  const total = entries.reduce((sum, { size }) => sum + size, 0);
  if (total > limits.unpacked)
    return `would unpack to ${megabytes(total)} or more, and at most ${megabytes(limits.unpacked)} are read`;
  const names = new Set<string>();
  for (const { name } of entries) {
    if (leadsOut(name))
      return `holds an entry named ${quoted(name)}, which would lead out of its folder: it is not one that Chargewright wrote`;
    if (names.has(name)) return `holds ${quoted(name)} twice: it is not one that Chargewright wrote`;
    names.add(name);
  }
  const placed = [...entries].sort((a, b) => a.from - b.from);
  const overlap = placed.some(({ from }, n) => n > 0 && from < placed[n - 1]!.to);
  return overlap
    ? 'holds entries that lie on top of each other: it is not one that Chargewright wrote'
    : null;
}

function leadsOut(name: string): boolean {
  return /^[/\\]|^[a-z]:|\\|\0/i.test(name) || name.split('/').includes('..');
}

/** A name from outside, fit for a sentence. */
export function quoted(name: string): string {
  return JSON.stringify(name.slice(0, 80));
}

function refuse(why: string): { readonly ok: false; readonly why: string } {
  return { ok: false, why };
}
