/** SHA256SUMS as GNU coreutils writes and checks it: `sha256sum -c SHA256SUMS` beside the unpacked files. */
import { createHash } from 'node:crypto';
import { quoted } from './zip-read.ts';
import { type Files, fromUtf8, utf8 } from './zip-write.ts';

export const SUMS = 'SHA256SUMS';
const LINE = /^([0-9a-f]{64}) [ *](.+)$/;

/** SHA-256 in small hexadecimal letters. */
export function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** The files with their sums beside them. */
export function withSums(files: Files): Files {
  const lines = [...files.keys()].sort().map((name) => `${sha256(files.get(name)!)}  ${name}\n`);
  return new Map([...files, [SUMS, utf8(lines.join(''))]]);
}

/** What does not fit the sums, going on from the name of the zip; null when every file does. */
export function checkSums(files: Files): string | null {
  const sums = files.get(SUMS);
  if (!sums) return `holds no ${SUMS}, so nothing says that it is whole: export it again`;
  const told = new Map<string, string>();
  for (const line of (fromUtf8(sums) ?? '').split('\n').filter((one) => one !== '')) {
    const match = LINE.exec(line.replace(/\r$/, ''));
    if (!match) return `has a ${SUMS} that cannot be read: fetch it again from where it was made`;
    told.set(match[2]!, match[1]!);
  }
  for (const [name, bytes] of files) {
    if (name === SUMS) continue;
    const sum = told.get(name);
    if (sum === undefined) return `holds ${quoted(name)}, which its ${SUMS} does not list: export it again`;
    if (sum !== sha256(bytes))
      return `holds ${quoted(name)} with other content than its ${SUMS} says: it was damaged or changed on the way; export it again`;
    told.delete(name);
  }
  const [missing] = told.keys();
  return missing === undefined ? null : `lacks ${quoted(missing)}, which its ${SUMS} lists: export it again`;
}
