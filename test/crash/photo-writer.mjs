/**
 * Puts pictures on a shelf and says on stdout which were answered, until it is killed.
 * Arguments: module of the shelf, folder, file of a picture, round, `honest` or `torn`. `torn` writes each straight to its name,
 * in pieces: a writer that must be caught, to show that the count can find half a picture.
 */
import { createHash } from 'node:crypto';
import { appendFileSync, mkdirSync, readFileSync, writeSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

const [shelfModule, folder, file, round, manner] = process.argv.slice(2);
const { openPhotoShelf } = await import(pathToFileURL(shelfModule).href);
const shelf = await openPhotoShelf(folder);
const square = readFileSync(file);
for (let number = 0; ; number += 1) {
  // A megabyte, so that a kill finds one half written; the scan's data is not looked into.
  const bytes = new Uint8Array(1_000_000);
  bytes.set(square.subarray(0, -2));
  bytes.set([0xff, 0xd9], bytes.length - 2);
  new DataView(bytes.buffer).setUint16(900_000, (Number(round) * 200 + number) % 60_000);
  // A number may hold 255, which would read as a marker.
  if (bytes[900_000] === 255 || bytes[900_001] === 255) continue;
  const photo = createHash('sha256').update(bytes).digest('hex');
  if (manner === 'torn') {
    const to = join(folder, photo.slice(0, 2), `${photo}.jpg`);
    mkdirSync(dirname(to), { recursive: true });
    for (let at = 0; at < bytes.length; at += 1000) appendFileSync(to, bytes.subarray(at, at + 1000));
  } else {
    const answer = await shelf.put(bytes);
    if (!answer.ok) throw new Error(answer.why);
  }
  writeSync(1, `${photo}\n`);
}
