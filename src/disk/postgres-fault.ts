/** What a PostgreSQL server or the way to it can lack, in one sentence, without the password. */
import { StoreFault } from './fault.ts';

/**
 * What became of the events that were being kept: `nothing` of them, `unknown` where the connection was cut while the
 * server made them last, `none` where none were to be kept.
 */
export type Kept = 'nothing' | 'unknown' | 'none';

/** Where a store is, fit to be shown: host and database, never user or password. */
export function placeOf(url: string): string {
  try {
    const { hostname, port, pathname, searchParams } = new URL(url);
    const host = searchParams.get('host') ?? decodeURIComponent(hostname);
    return `${host || 'localhost'}${port === '' ? '' : `:${port}`}${pathname}`;
  } catch {
    return 'named by DATABASE_URL';
  }
}

/** Codes of a server that ends its connections, from PostgreSQL's appendix A: shut down, crashed, starting, let go of. */
const ENDED = ['57P01', '57P02', '57P03', '57P05', '25P03'];
/** Codes of a transaction that lost to another and may be done again. */
const BEATEN = ['40001', '40P01'];
const UNREACHABLE = ['ECONNREFUSED', 'ENOENT', 'EHOSTUNREACH', 'ENETUNREACH', 'EHOSTDOWN', 'EACCES'];
const UNKNOWN_HOST = ['ENOTFOUND', 'EAI_AGAIN'];
const LOST = ['ECONNRESET', 'EPIPE', 'ECONNABORTED', 'ETIMEDOUT'];
/** What the driver says, without a code, of a connection that ended or was silent for too long. */
const LOST_WORDS = /^Connection terminated|not queryable|^Query read timeout|^timeout exceeded/;

function codeOf(error: Error): string {
  const { code } = error as { readonly code?: unknown };
  return typeof code === 'string' ? code : '';
}

/** Whether the connection is gone, so that nothing more can be asked over it. */
export function isCut(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const code = codeOf(error);
  return (
    ENDED.includes(code) || LOST.includes(code) || code.startsWith('08') || LOST_WORDS.test(error.message)
  );
}

/** Whether the server could not be reached at all: asking again at once only makes the mechanic wait. */
export function isUnreachable(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  return UNREACHABLE.includes(codeOf(error)) || /^timeout exceeded|connection timeout$/.test(error.message);
}

/** Whether the same may go well a moment later. */
export function mayGoWell(error: unknown): boolean {
  return isCut(error) || isUnreachable(error) || (error instanceof Error && BEATEN.includes(codeOf(error)));
}

/** Turns what the driver or the server threw into one sentence; anything else comes back as it is. */
export function explainPostgres(place: string, error: unknown, kept: Kept = 'nothing'): unknown {
  if (!(error instanceof Error)) return error;
  // Whatever came afterwards, this is what the mechanic must know.
  if (kept === 'unknown')
    return new StoreFault(
      place,
      `The connection to the store ${place} broke at the moment it kept this entry, so the entry may be there or not. Send it again when the server answers: nothing is kept twice.`,
      error,
    );
  if (error instanceof StoreFault) return error;
  const text = sentence(place, codeOf(error), error.message, kept === 'nothing');
  return text === null ? error : new StoreFault(place, text, error);
}

function sentence(place: string, code: string, message: string, entering: boolean): string | null {
  const at = `The store ${place}`;
  const lost = entering ? '; nothing of this entry was kept.' : '.';
  const alsoLost = entering ? '; the last entry was not kept' : '';
  if (code === '57P01' || code === '57P02' || code === '57P03')
    return `${at} is starting or stopping. Try again in a moment${lost}`;
  if (UNKNOWN_HOST.includes(code))
    return `${at} is at a host that is not known. Look at the name in DATABASE_URL.`;
  if (UNREACHABLE.includes(code) || /^timeout exceeded|connection timeout$/.test(message))
    return `${at} does not answer. Start the PostgreSQL server there, look at the network, then try again${lost}`;
  if (LOST.includes(code) || ENDED.includes(code) || code.startsWith('08') || LOST_WORDS.test(message))
    return `The connection to the store ${place} broke. Look at the server there and at the network, then try again${lost}`;
  if (code === '28P01' || code === '28000' || /^SASL|password must be a string/.test(message))
    return `${at} does not let this user in. Look at the user and password in DATABASE_URL.`;
  if (code === 'ERR_INVALID_URL')
    return 'DATABASE_URL is no address that can be read. Write it as in postgres://user@host/garage, with %40 for an @ in the password.';
  if (/does not support SSL/.test(message))
    return `${at} does not speak encrypted, but DATABASE_URL asks for it. Turn ssl on at the server, or take sslmode out of DATABASE_URL.`;
  if (code === '3D000') return `${at} does not exist on its server. Make the database there first.`;
  if (code === '42501')
    return `${at} may not be written by this user. Give it the right to create tables there.`;
  if (code === '25006') return `${at} is read-only now (a standby?). Use the server that takes writes.`;
  if (code === '53100')
    return `There is no room left on the disk of ${place}${alsoLost}. Free some space and try again.`;
  if (code === '53200') return `The server of ${place} has no memory left. Try again in a moment${lost}`;
  if (code === '53300')
    return `${at} has no connection free. Close other programs that use it, then try again.`;
  if (code === '57014' || code === '55P03')
    return `${at} takes too long: another program keeps it busy. Try again${lost}`;
  if (code === '42P01' || code === '42703' || code === '23505') return tornSentence(place);
  if (code.startsWith('XX') || code === '58030')
    return `${at} reports a fault of its own disk${alsoLost}. Look at the server.`;
  return null;
}

/** Tables that do not belong together, as after a backup that was put back by halves. */
export function tornSentence(place: string): string {
  return `The store ${place} is damaged: its tables do not fit each other. Nothing was changed. Put back a backup of the whole database, or name another one in DATABASE_URL.`;
}
