/** Reads the field for a chain: its number in a standard, the number a motorcycle chain goes by, or its pitch. */
import { chainNamed, type StandardChain } from '../drive/standard.ts';
import { parseQuantity } from '../units/parse.ts';
import { type Entries, withExample } from './entries.ts';

export interface ChainRead {
  /** m. */
  readonly pitch: number;
  /** Row of the table; null where only the pitch is known. */
  readonly standard: StandardChain | null;
}

/** Sizes of motorcycle chains: the first digit is the pitch in eighths of an inch (ISO 10190, from memory). */
const BY_EIGHTHS = /^#?\s*(?:(4)(?:15|20|28)|(5)(?:20|25|30|32)|(6)(?:30))$/;
const EIGHTH = 0.003175;

/** The chain in field `pitch` or another; null where it is empty or refused. */
export function readChain(read: Entries, id = 'pitch'): ChainRead | null {
  const text = read.text(id);
  if (text === '') return null;
  const named = chainNamed(text);
  if (named.ok) return { pitch: named.chain.pitch, standard: named.chain };
  const sized = BY_EIGHTHS.exec(text);
  if (sized) return { pitch: Number(sized[1] ?? sized[2] ?? sized[3]) * EIGHTH, standard: null };
  if (!/[a-z"″]/i.test(text.replace(/\d+[abc]\b/i, '')))
    return read.blame(
      id,
      `"${text.slice(0, 40)}" is no number of a chain that is known here: write e.g. #40, 08A or 520, or its pitch as a length, 12.7 mm.`,
    );
  const length = parseQuantity(text, 'length');
  if (!length.ok) return read.blame(id, withExample(length.why, '12.7 mm'));
  const { si } = length.value;
  return si >= 0.003 && si <= 0.1
    ? { pitch: si, standard: null }
    : read.blame(id, `${text} is no pitch of a chain, 3 mm to 100 mm: measure from pin to pin.`);
}
