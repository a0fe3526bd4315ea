/** Files that are damaged, foreign, of a later version or made to harm: one sentence each, and nothing is believed. */
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { describe, expect, it, test } from 'vitest';
import { canonical } from '../../src/job/stamp.ts';
import { GARAGE_LIMITS, JOB_LIMITS, JOB_TEXT_BYTES } from '../../src/press/limits.ts';
import { utf8 } from '../../src/press/zip-write.ts';
import { picture, SQUARE, sumOf, withSegment } from '../job/pictures.ts';
import { opening, story } from '../job/stories.ts';
import { content, packed, readBack, refusal, SMALL, summedZip, zipOf } from './samples.ts';

const good = packed(content(SMALL));
const files = () => new Map<string, Uint8Array | string>(Object.entries(unzipSync(good)));
const text = (name: string) => Buffer.from(files().get(name) as Uint8Array).toString('utf8');

/** The good job with files changed and the sums made to fit; null takes one out. */
function changed(changes: Readonly<Record<string, string | Uint8Array | null>>): Uint8Array {
  const map = files();
  map.delete('SHA256SUMS');
  for (const [name, file] of Object.entries(changes)) {
    if (file === null) map.delete(name);
    else map.set(name, file);
  }
  return summedZip(map);
}

/** A job that names a photograph, with these bytes in its place. */
function photographed(bytes: Uint8Array): Uint8Array {
  const photo = sumOf(bytes);
  const events = story([opening, { type: 'photoAdded', photo, step: '', about: '' }]);
  const map = new Map<string, Uint8Array | string>(Object.entries(unzipSync(packed(content(events)))));
  map.delete('SHA256SUMS');
  return summedZip(map.set(`photos/${photo}.jpg`, bytes));
}

/** Where the directory's entry of a name begins. */
function directoryEntry(bytes: Uint8Array, name: string): number {
  const at = Buffer.from(bytes).lastIndexOf(name) - 46;
  expect(Buffer.from(bytes).readUInt32LE(at)).toBe(0x02014b50);
  return at;
}

/** A copy with 32 bits of the directory's entry changed. */
function patched(bytes: Uint8Array, name: string, field: number, value: number): Uint8Array {
  const copy = Buffer.from(bytes);
  copy.writeUInt32LE(value >>> 0, directoryEntry(copy, name) + field);
  return new Uint8Array(copy);
}
const [CRC, PACKED, SIZE, LOCAL] = [16, 20, 24, 42];

const event = (n: number, change: object) => ({ ...SMALL[n]!, ...change });
const ndjson = (...events: readonly object[]) => events.map((one) => `${JSON.stringify(one)}\n`).join('');
const head = (change: object) => JSON.stringify({ ...JSON.parse(text('job.json')), ...change });

test('the good one is taken', () => expect(refusal(good)).toBe(''));

describe('refused, with nothing kept', () => {
  const CASES: readonly [string, () => Uint8Array, RegExp][] = [
    ['nothing at all', () => new Uint8Array(0), /^x\.zip is no zip: name one that Chargewright wrote;/],
    ['a text', () => Buffer.from('readings\n'.repeat(100)), /is no zip/],
    ['half of it', () => good.slice(0, good.length / 2), /is cut off or damaged: fetch it again/],
    ['all but its last byte', () => good.slice(0, -1), /is cut off or damaged/],
    ['all but its first byte', () => good.slice(1), /is no zip|is cut off or damaged/],
    [
      'a zip of something else',
      () => zipOf(new Map([['letter.txt', 'Dear']])),
      /is a zip, but of something else/,
    ],
    ['an empty zip', () => zipOf(new Map()), /is a zip, but of something else/],
    ['no events', () => changed({ 'events.ndjson': null }), /lacks events\.ndjson/],
    [
      'no sums',
      () => zipOf(new Map([...files()].filter(([name]) => name !== 'SHA256SUMS'))),
      /holds no SHA256SUMS/,
    ],
    [
      'an event changed by hand',
      () => zipOf(files().set('events.ndjson', text('events.ndjson').replace('12.4', '12.5'))),
      /holds "events\.ndjson" with other content than its SHA256SUMS says/,
    ],
    [
      'a machine file changed by hand',
      () => zipOf(files().set('machine.json', '{}')),
      /holds "machine\.json" with other content/,
    ],
    [
      'a sum of nothing',
      () => zipOf(files().set('SHA256SUMS', `${text('SHA256SUMS')}${'0'.repeat(64)}  gone.txt\n`)),
      /lacks "gone\.txt", which its SHA256SUMS lists/,
    ],
    [
      'a file without a sum',
      () => zipOf(files().set('SHA256SUMS', text('SHA256SUMS').replace(/.*machine\.json\n/, ''))),
      /holds "machine\.json", which its SHA256SUMS does not list/,
    ],
    [
      'sums that are none',
      () => zipOf(files().set('SHA256SUMS', 'all is well\n')),
      /SHA256SUMS that cannot be read/,
    ],
    ['a stranger', () => changed({ 'notes.txt': 'x' }), /holds "notes\.txt", which does not belong in a job/],
    [
      'a name that climbs',
      () => changed({ '../evil.json': 'x' }),
      /"\.\.\/evil\.json", which would lead out of its folder/,
    ],
    ['a name that climbs later', () => changed({ 'photos/../../evil': 'x' }), /would lead out/],
    ['a name from the root', () => changed({ '/etc/passwd': 'x' }), /would lead out/],
    ['a name with a drive', () => changed({ 'C:evil': 'x' }), /would lead out/],
    ['a name with backslashes', () => changed({ '..\\evil': 'x' }), /would lead out/],
    ['a name with a zero', () => changed({ 'job.json\0.txt': 'x' }), /would lead out/],
    [
      'a photo under another name',
      () => changed({ [`photos/${'a'.repeat(64)}.jpg`]: 'x' }),
      /under a name that is not its sum/,
    ],
    ['a photo of no kind', () => changed({ [`photos/${'a'.repeat(64)}.exe`]: 'x' }), /does not belong/],
    [
      'a photo that no event names',
      () => changed({ [`photos/${sumOf(SQUARE)}.jpg`]: SQUARE }),
      /which no event of its job names/,
    ],
    ['a page as a photo', () => photographed(utf8('<script>')), /but that photograph is not a JPEG picture/],
    [
      'a photo with a page behind it',
      () => photographed(new Uint8Array(Buffer.concat([SQUARE, utf8('<script>')]))),
      /something else behind it/,
    ],
    [
      'a photo that tells where it was taken',
      () => photographed(withSegment(0xe1, 'Exif')),
      /where it was taken/,
    ],
    ['a photo over 2 MB', () => photographed(picture(1, 2_000_001)), /which is over 2 MB/],
    [
      'a head of another program',
      () => changed({ 'job.json': '{"format":"other","version":1}' }),
      /job\.json that Chargewright did not write/,
    ],
    [
      'a head that is no JSON',
      () => changed({ 'job.json': 'null' }),
      /job\.json that Chargewright did not write/,
    ],
    [
      'a later version',
      () => changed({ 'job.json': head({ version: 2 }) }),
      /is of version 2 of its format, and this program reads version 1: update/,
    ],
    [
      'a head of another job',
      () => changed({ 'job.json': head({ job: 'j2' }) }),
      /one thing of its job in job\.json and another/,
    ],
    [
      'a head of another machine',
      () => changed({ 'job.json': head({ machine: 'm2' }) }),
      /one thing of its job/,
    ],
    [
      'a line that is no JSON',
      () => changed({ 'events.ndjson': `${text('events.ndjson')}{"half\n` }),
      /has in events\.ndjson line 5 no JSON/,
    ],
    [
      'events that are no text',
      () => changed({ 'events.ndjson': Uint8Array.of(0x7b, 0xe9, 0x7d) }),
      /no text in UTF-8/,
    ],
    [
      'an event of a later version',
      () => changed({ 'events.ndjson': ndjson(...SMALL, event(3, { type: 'photoTaken' })) }),
      /line 5 an event of the type "photoTaken", which this version does not know: update Chargewright/,
    ],
    [
      'an event with a field too many',
      () => changed({ 'events.ndjson': ndjson(SMALL[0]!, event(1, { mood: 'good' })) }),
      /line 2 an event that is not in order \(In readingTaken the field mood must not be there/,
    ],
    [
      'a list for an event',
      () => changed({ 'events.ndjson': `${text('events.ndjson')}[]\n` }),
      /line 5 an event that is not in order/,
    ],
    [
      'an event that would spoil every object',
      () => changed({ 'events.ndjson': `{"__proto__":{"type":"noteAdded"}}\n` }),
      /line 1 an event that is not in order/,
    ],
    ['no opening', () => changed({ 'events.ndjson': ndjson(...SMALL.slice(1)) }), /no opening event/],
    ['no event', () => changed({ 'events.ndjson': '' }), /no opening event/],
    [
      'an event of another job',
      () => changed({ 'events.ndjson': ndjson(...SMALL, event(3, { job: 'j2' })) }),
      /line 5 an event of another job, j2/,
    ],
    [
      'one id with two contents',
      () => changed({ 'events.ndjson': ndjson(...SMALL, event(3, { text: 'other' })) }),
      /has the event \S+ twice with different content/,
    ],
    [
      'a machine file that is no text',
      () => changed({ 'machine.json': Uint8Array.of(0xff, 0xfe) }),
      /machine\.json that is no text/,
    ],
    ['a machine file over 1 MB', () => changed({ 'machine.json': 'x'.repeat(1_000_001) }), /up to 1 MB/],
    [
      'a check sum of the zip that is wrong',
      () => patched(good, 'job.json', CRC, 7),
      /"job\.json" in it cannot be unpacked/,
    ],
    [
      'a size one too large',
      () => patched(good, 'job.json', SIZE, text('job.json').length + 1),
      /cannot be unpacked/,
    ],
    [
      'a size other than what is stored',
      () => patched(zipOf(files()), 'job.json', SIZE, text('job.json').length - 1),
      /cut off or damaged: fetch it again from where it was made;/,
    ],
    [
      'one name twice',
      () =>
        Buffer.from(
          Buffer.from(changed({ 'job.jsoN': 'x' }))
            .toString('latin1')
            .replaceAll('job.jsoN', 'job.json'),
          'latin1',
        ),
      /holds "job\.json" twice/,
    ],
    [
      'a packed size that leads out',
      () => patched(good, 'job.json', PACKED, 0x7fffffff),
      /cut off or damaged/,
    ],
    ['an entry that lies elsewhere', () => patched(good, 'job.json', LOCAL, 5), /cut off or damaged/],
    [
      'two entries on one place',
      () => {
        const at = directoryEntry(good, 'events.ndjson');
        return patched(good, 'job.json', LOCAL, Buffer.from(good).readUInt32LE(at + LOCAL));
      },
      /cut off or damaged/,
    ],
    [
      'an encrypted entry',
      () => {
        const copy = Buffer.from(good);
        copy[directoryEntry(copy, 'job.json') + 8]! |= 1;
        return new Uint8Array(copy);
      },
      /holds "job\.json" encrypted or packed in a way that is not read here/,
    ],
  ];

  test.each(CASES)('%s', (_name, make, sentence) => {
    const why = refusal(make());
    expect(why).toMatch(sentence);
    expect(why).toMatch(/^x\.zip .*; nothing was kept\.$/s);
    expect(why).not.toContain('\n');
  });
});

describe('bombs', () => {
  const zeros = (size: number) => new Uint8Array(size);

  it('that say how large they are are refused before they are unpacked', () => {
    // The room that photographs have is not had by texts.
    const bombs: readonly [Uint8Array, RegExp][] = [
      [zipOf(files().set('events.ndjson', zeros(JOB_LIMITS.unpacked + 1)), 6), /to 250 MB or more/],
      [zipOf(files().set('events.ndjson', zeros(JOB_TEXT_BYTES)), 6), /to 60 MB besides its photographs/],
    ];
    for (const [bomb, words] of bombs) {
      expect(bomb.length).toBeLessThan(300_000);
      const before = performance.now();
      expect(refusal(bomb)).toMatch(words);
      expect(performance.now() - before).toBeLessThan(200);
    }
  });

  it('that lie about it are cut short at what they said', () => {
    const bomb = zipOf(files().set('events.ndjson', zeros(50_000_000)), 6);
    const before = performance.now();
    expect(refusal(patched(bomb, 'events.ndjson', SIZE, 1000))).toMatch(
      /"events\.ndjson" in it cannot be unpacked/,
    );
    expect(performance.now() - before).toBeLessThan(200);
  });

  it('made of many files are refused by their number', () => {
    const many = files();
    for (let n = 0; n < JOB_LIMITS.entries; n++) many.set(`photos/${n}`, '');
    expect(refusal(zipOf(many))).toMatch(/holds 1006 files, and at most 1000 are read/);
  });

  it('made of entries inside each other are refused', () => {
    expect(refusal(nested())).toMatch(/holds entries that lie on top of each other/);
  });

  it('and files beyond 200 MB are no job, beyond 600 MB nothing', () => {
    const big = new Uint8Array(JOB_LIMITS.zip + 1000);
    const photo = files().set('photos/x', big);
    expect(refusal(zipOf(photo))).toMatch(/is larger than 200 MB, the most that is read/);
    expect(refusal(new Uint8Array(GARAGE_LIMITS.zip + 1))).toMatch(
      /is larger than 600 MB, the most that is read/,
    );
  });
});

describe('chance damage', () => {
  it('is always told, or has changed nothing', () => {
    const whole = readBack(good).jobs[0]!.content;
    fc.assert(
      fc.property(fc.nat(good.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
        const copy = good.slice();
        copy[at]! ^= flip;
        const why = refusal(copy);
        if (why === '') expect(readBack(copy).jobs[0]!.content).toEqual(whole);
        else expect(why).toMatch(/^x\.zip .*; nothing was kept\.$/s);
      }),
      { seed: 14, numRuns: 2000 },
    );
  });

  it('and every length that it may be cut off at is told', () => {
    for (let length = 0; length < good.length; length += 7)
      expect(refusal(good.slice(0, length))).toMatch(/is no zip|is cut off or damaged/);
  });

  it('and bytes of any kind are answered, never thrown at', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), fc.boolean(), (bytes, end) => {
        // With an end record behind it the rest is read as a zip.
        const tail = end ? good.slice(-22) : new Uint8Array(0);
        expect(refusal(Uint8Array.of(...bytes, ...tail))).toMatch(/nothing was kept\.$/);
      }),
      { seed: 15, numRuns: 500 },
    );
  });
});

describe('what is no harm', () => {
  it('an event twice, blank lines and CRLF', () => {
    const twice = changed({
      'events.ndjson': `${ndjson(...SMALL, SMALL[1]!)}\r\n\n`.replaceAll('\n', '\r\n'),
    });
    expect(readBack(twice).jobs[0]!.content.events.map(canonical)).toEqual(SMALL.map(canonical));
  });

  it('a comment at the end of the zip', () => {
    const copy = Buffer.concat([good, Buffer.from('hello')]);
    copy.writeUInt16LE(5, good.length - 2);
    expect(refusal(copy)).toBe('');
  });

  it('a longer log of the same job', () => {
    const more = story([{ type: 'noteAdded', text: 'later' }], {
      device: 'phone',
      start: Date.UTC(2027, 0, 1),
    });
    expect(readBack(packed(content([...SMALL, ...more]))).jobs[0]!.content.events).toHaveLength(5);
  });
});

/** A zip whose first entry holds, as its own bytes, the second one with its header: each byte would count twice. */
function nested(): Uint8Array {
  const inner = Buffer.from(zipOf(new Map([['events.ndjson', 'x'.repeat(1000)]])));
  const outer = Buffer.from(zipOf(new Map([['job.json', inner]])));
  const innerDirectory = inner.readUInt32LE(inner.length - 22 + 16);
  const second = Buffer.from(inner.subarray(innerDirectory, inner.length - 22));
  second.writeUInt32LE(30 + 'job.json'.length, LOCAL);
  const end = Buffer.from(outer.subarray(-22));
  end.writeUInt16LE(2, 8);
  end.writeUInt16LE(2, 10);
  end.writeUInt32LE(end.readUInt32LE(12) + second.length, 12);
  return new Uint8Array(Buffer.concat([outer.subarray(0, -22), second, end]));
}
