/**
 * Room `press`: makes what leaves the garage and takes it in again: jobs and whole garages as zip files, readings as
 * tables. The formats are told in docs/files.md. What is read here comes from anywhere, so it is bounded and checked
 * before any of it is kept.
 *
 * This file: one way to write a zip, so that the same files always make the same bytes: names in order, one fixed
 * time, one way to compress. The deflate of fflate is plain JavaScript, the same on every computer; the zlib built
 * into node differs from one processor and version to the next, and so would the bytes.
 */
import { type Zippable, zipSync } from 'fflate';

/** Files by name, with `/` between folder and file. */
export type Files = ReadonlyMap<string, Uint8Array>;

/** Whether a name in a job's zip is that of a photograph. */
export function isPhoto(name: string): boolean {
  return name.startsWith('photos/');
}

/** `pack` compresses all but photographs; `store` nothing, for what is compressed already. */
export function writeZip(files: Files, how: 'pack' | 'store'): Uint8Array {
  const entries: Zippable = {};
  for (const name of [...files.keys()].sort()) {
    // The time of a zip has no zone: local midnight reads 1980-01-01 00:00, its earliest, wherever it is written.
    entries[name] = [
      files.get(name)!,
      { level: how === 'pack' && !isPhoto(name) ? 6 : 0, mtime: new Date(1980, 0, 1) },
    ];
  }
  return zipSync(entries);
}

/** Text as UTF-8. */
export function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** UTF-8 as text; null when it is none. A mark at its beginning stays in the text. */
export function fromUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
