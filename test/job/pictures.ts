/** Pictures for the tests of photographs. The two files are one brown square, made with an encoder of the system. */
import { createHash } from 'node:crypto';

/** A baseline JPEG of 8 × 8 points. */
export const SQUARE: Uint8Array<ArrayBuffer> = bytesOf(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAFA3PEY8MlBGQUZaVVBfeMiCeG5uePWvuZHI////////////////////////////' +
    '////////////////////////2wBDAVVaWnhpeOuCguv/////////////////////////////////////////////////////' +
    '////////////////////wAARCAAIAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAP/xAAUEAEAAAAAAAAAAAAA' +
    'AAAAAAAA/8QAFAEBAAAAAAAAAAAAAAAAAAAAAv/EABQRAQAAAAAAAAAAAAAAAAAAAAD/2gAMAwEAAhEDEQA/AJACb//Z',
);

/** The same, progressive: ten scans with tables between them. */
export const PROGRESSIVE: Uint8Array<ArrayBuffer> = bytesOf(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAFA3PEY8MlBGQUZaVVBfeMiCeG5uePWvuZHI////////////////////////////' +
    '////////////////////////2wBDAVVaWnhpeOuCguv/////////////////////////////////////////////////////' +
    '////////////////////wgARCAAIAAgDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUAQEAAAAAAAAAAAAA' +
    'AAAAAAAB/9oADAMBAAIQAxAAAAGAP//EABQQAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQEAAQUCf//EABQRAQAAAAAAAAAAAAAA' +
    'AAAAAAD/2gAIAQMBAT8Bf//EABQRAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQIBAT8Bf//EABQQAQAAAAAAAAAAAAAAAAAAAAD/' +
    '2gAIAQEABj8Cf//EABQQAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQEAAT8hf//aAAwDAQACAAMAAAAQ9//EABQRAQAAAAAAAAAA' +
    'AAAAAAAAAAD/2gAIAQMBAT8Qf//EABQRAQAAAAAAAAAAAAAAAAAAAAD/2gAIAQIBAT8Qf//EABQQAQAAAAAAAAAAAAAAAAAA' +
    'AAD/2gAIAQEAAT8Qf//Z',
);

/** A picture that differs for each number up to 60 000; `length` pads its data, bytes. */
export function picture(number: number, length = SQUARE.length): Uint8Array<ArrayBuffer> {
  const made = new Uint8Array(Math.max(length, SQUARE.length));
  made.set(SQUARE.subarray(0, -2));
  made.set([0xff, 0xd9], made.length - 2);
  // Two numbers of its first quantisation table, of which none may be 0.
  made[80] = 1 + (number % 250);
  made[81] = 1 + Math.floor(number / 250);
  return made;
}

/** SHA-256 in small hexadecimal digits. */
export function sumOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** The picture with a segment put in after its beginning. */
export function withSegment(marker: number, body: string | Uint8Array): Uint8Array<ArrayBuffer> {
  const own = Buffer.from(body);
  const head = Uint8Array.of(0xff, marker, (own.length + 2) >> 8, (own.length + 2) & 255);
  return new Uint8Array(Buffer.concat([SQUARE.subarray(0, 2), head, own, SQUARE.subarray(2)]));
}

/** The picture with the sides its frame header says changed. */
export function withSides(width: number, height: number): Uint8Array<ArrayBuffer> {
  const made = new Uint8Array(SQUARE);
  const at = frameOf(made);
  made.set([height >> 8, height & 255, width >> 8, width & 255], at + 5);
  return made;
}

/** Where the frame header begins. */
export function frameOf(bytes: Uint8Array): number {
  return Buffer.from(bytes).indexOf(Buffer.from([0xff, 0xc0]));
}

function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  return new Uint8Array(Buffer.from(text, 'base64'));
}
