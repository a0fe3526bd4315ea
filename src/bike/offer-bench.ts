/** What records of the bench found, offered for the file: lengths of screws, stacks of shims, slack, volumes. */
import { lastRecord } from '../bench/last-record.ts';
import { placesOf, type StepPlace } from '../bench/place.ts';
import type { BenchRecord } from '../job/bench-fold.ts';
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { type EntryKind, readAs } from '../machine/entry.ts';
import { getAt, type Json, type Path } from '../machine/json-value.ts';
import { agree, readSpan, type Span, writeSpan } from './honest-range.ts';
import { figureOffer, type Offer, type OfferKind, plainOffer, type Seen, saidAt } from './offer.ts';

/** Lengths that differ by less are one length, m: a rule read by eye, common practice. */
const SAME_LENGTH = 0.0005;
/** What a micrometer in a garage leaves open on a stack, m: common practice, no source. */
const STACK = 0.00003;
/** What a rule leaves open on slack, m: common practice, no source. */
const RULE = 0.0005;
/** What a can's marks leave open, share: common practice, no source. */
const POURED = 0.05;

/** Least and most that the file takes, SI. */
const TAKES: Partial<Readonly<Record<OfferKind, readonly [number, number]>>> = {
  length: [1e-4, 1],
  shims: [0, 0.1],
  slack: [0, 0.5],
  volume: [1e-6, 0.05],
};

interface Found {
  readonly place: StepPlace;
  readonly record: BenchRecord;
  readonly seen: Seen;
}

const numbers = (value: number | readonly number[] | undefined): readonly number[] =>
  value === undefined ? [] : typeof value === 'number' ? [value] : value;

export function offeredFromBench(jobs: readonly JobState[], machine: Machine, file: Json): readonly Offer[] {
  const places = placesOf(machine);
  const found = new Map<string, Found>();
  /** Of the same thing measured twice the later counts. */
  const put = (of: string, one: Found): void => {
    const known = found.get(of);
    if (!known || known.seen.at <= one.seen.at) found.set(of, one);
  };
  for (const { job, bench } of jobs) {
    if (job === null) continue;
    for (const place of places.values()) {
      const of = (ask: string, id: string | null, what: string): void => {
        const record = id === null ? null : lastRecord(bench.records, place.id, ask);
        if (record && id !== null) put(`${what} ${id}`, { place, record, seen: { job, at: record.at } });
      };
      of('lengths', place.fastener, 'lengths');
      of('stack-found', place.action?.entry.shims ?? null, 'stack');
      of('slack', place.step?.chain ?? null, 'slack');
      // Measured with the nut tight it is the later word, and the truer one.
      of('slack-again', place.step?.chain ?? null, 'slack');
      of('fill', place.step?.fluid ?? null, 'fill');
    }
  }
  return [...found].flatMap(([of, one]) => {
    const [what, id] = [of.slice(0, of.indexOf(' ')), of.slice(of.indexOf(' ') + 1)];
    const offer =
      what === 'lengths'
        ? lengthsOffer(machine, file, id, one)
        : what === 'stack'
          ? stackOffer(machine, file, id, one)
          : what === 'slack'
            ? slackOffer(machine, file, id, one)
            : fillOffer(machine, file, id, one);
    return offer ?? [];
  });
}

interface Measured {
  readonly kind: OfferKind;
  readonly path: Path;
  readonly label: string;
  readonly why: string;
  readonly text: string;
  readonly span: Span;
  readonly read: EntryKind;
}

/** The offer, unless something measured in the file says the same already. */
function offerUnlessKnown(file: Json, of: Measured, seen: Seen): Offer | null {
  const { text, span, read, ...words } = of;
  const written = readAs(text, read);
  const [least, most] = TAKES[of.kind] ?? [0, 0];
  // A log may hold what no step would have let pass.
  if (!written.ok || written.low < least || written.high > most) return null;
  const known = saidAt(file, words.path).some(({ said, source }) => {
    const stands = source === 'measured' ? readSpan(said, read) : null;
    return stands !== null && agree(stands, span);
  });
  return known ? null : figureOffer(file, words, { is: text }, seen);
}

function lengthsOffer(machine: Machine, file: Json, id: string, { record, seen }: Found): Offer | null {
  const entry = machine.fasteners?.[id];
  const lengths = numbers(record.figures.lengthsM);
  if (!entry || lengths.length === 0) return null;
  const [least, most] = [Math.min(...lengths), Math.max(...lengths)];
  const path: Path = ['fasteners', id];
  const label = `Length of the ${entry.name}`;
  if (most - least <= SAME_LENGTH) {
    const typed = (record.words.lengths ?? '').trim();
    const read = readAs(typed, 'length');
    const text = read.ok && read.low === read.high ? typed : millimetres(lengths[0]!);
    const span = { low: least - SAME_LENGTH, high: most + SAME_LENGTH };
    const why = `Found so in ${lengths.length === 1 ? 'its hole' : `all ${lengths.length} holes`}.`;
    return offerUnlessKnown(
      file,
      { kind: 'length', path: [...path, 'length'], label, why, text, span, read: 'length' },
      seen,
    );
  }
  // One figure cannot say which screw belongs in which hole: that stands as a remark beside it.
  const row = `Lengths found, hole 1 to ${lengths.length}: ${lengths.map(millimetres).join(', ')}.`;
  const at: Path = [...path, 'note'];
  const stands = getAt(file, at);
  const before = typeof stands === 'string' ? stands : null;
  if (before?.includes(row)) return null;
  const kept = before?.replace(/ ?Lengths found, hole 1 to \d+: [^.]*(?:\.\d[^.]*)*\./, '').trim() ?? '';
  const text = kept === '' ? row : `${kept} ${row}`;
  return plainOffer(
    {
      kind: 'length',
      path: at,
      label: `${label}, by hole`,
      puts: [{ path: at, is: text }],
      says: row,
      was: before,
      why: `They came out in ${new Set(lengths.map((one) => Math.round(one / SAME_LENGTH))).size} lengths, and the file has one figure for all of them.`,
    },
    seen,
  );
}

function stackOffer(machine: Machine, file: Json, id: string, { record, seen }: Found): Offer | null {
  const entry = machine.shims?.[id];
  const row = numbers(record.figures.shimsM);
  if (!entry || row.length === 0) return null;
  const sum = row.reduce((total, one) => total + one, 0);
  const span = { low: Math.max(0, sum - STACK), high: sum + STACK };
  return offerUnlessKnown(
    file,
    {
      kind: 'shims',
      path: ['shims', id, 'stack'],
      label: `Stack as found: ${entry.name}`,
      why: `${row.length === 1 ? 'One shim' : `${row.length} shims`} lay there: ${row.map(millimetres).join(', ')}, from the case outwards.`,
      text: writeSpan({ low: span.low * 1000, high: span.high * 1000 }, 'mm'),
      span,
      read: 'length',
    },
    seen,
  );
}

function slackOffer(machine: Machine, file: Json, id: string, { record, seen }: Found): Offer | null {
  const entry = machine.chains?.[id];
  const measured = numbers(record.figures.leastM ?? record.figures.slackM);
  if (!entry || measured.length === 0) return null;
  const least = Math.min(...measured);
  const span = { low: Math.max(0, least - RULE), high: least + RULE };
  const again = record.ask === 'slack-again';
  return offerUnlessKnown(
    file,
    {
      kind: 'slack',
      path: ['chains', id, 'slack'],
      label: `Slack of the ${entry.name}, as it was left`,
      why: `Measured at the tight spot${again ? ' with the nut tight' : ''}: ${millimetres(least)}, a rule’s half millimetre to each side.`,
      text: writeSpan({ low: span.low * 1000, high: span.high * 1000 }, 'mm'),
      span,
      read: 'length',
    },
    seen,
  );
}

function fillOffer(machine: Machine, file: Json, id: string, { record, seen }: Found): Offer | null {
  const entry = machine.fluids?.[id];
  const [volume] = numbers(record.figures.volumeM3);
  // Off its level the volume says nothing of the bike.
  if (!entry || volume === undefined || record.words.level !== 'right') return null;
  const span = { low: volume * (1 - POURED), high: volume * (1 + POURED) };
  // A case that had been wiped dry takes more: it is held against the figure it lies nearer to.
  const far = ({ is }: { readonly is: Span }) => Math.abs((is.low + is.high) / 2 - volume);
  const dry = entry.dry !== null && far(entry.dry) < far(entry.amount);
  return offerUnlessKnown(
    file,
    {
      kind: 'volume',
      path: ['fluids', id, dry ? 'dry' : 'amount'],
      label: `What went in: ${entry.name}${dry ? ', the case dry' : ''}`,
      why: `${litres(volume)} brought the level right, read upright; a can’s marks are good to a twentieth.`,
      text: writeSpan({ low: span.low * 1000, high: span.high * 1000 }, 'l'),
      span,
      read: 'volume',
    },
    seen,
  );
}

const trimmed = (value: number): string => String(Number(value.toPrecision(4)));
const millimetres = (metres: number): string => `${trimmed(metres * 1000)} mm`;
const litres = (cubicMetres: number): string => `${trimmed(cubicMetres * 1000)} l`;
