/** What a PostgreSQL server or the way to it can lack, in one sentence, without the password. */
import { StoreFault } from './fault.ts';

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

/** Turns what the driver or the server threw into one sentence; anything else comes back as it is. */
export function explainPostgres(place: string, error: unknown): unknown {
  if (error instanceof StoreFault || !(error instanceof Error)) return error;
  const { code } = error as { readonly code?: unknown };
  const text = sentence(place, typeof code === 'string' ? code : '', error.message);
  return text === null ? error : new StoreFault(place, text, error);
}

function sentence(place: string, code: string, message: string): string | null {
  const at = `The store ${place}`;
  if (
    ['ECONNREFUSED', 'ENOENT', 'EHOSTUNREACH', 'ETIMEDOUT', 'ECONNRESET'].includes(code) ||
    /timeout|terminated/i.test(message)
  )
    return `${at} does not answer. Start the PostgreSQL server there, look at the network, then try again; nothing of this entry was kept.`;
  if (code === 'ENOTFOUND' || code === 'EAI_AGAIN')
    return `${at} is at a host that is not known. Look at the name in DATABASE_URL.`;
  if (code === '28P01' || code === '28000')
    return `${at} does not let this user in. Look at the user and password in DATABASE_URL.`;
  if (code === '3D000') return `${at} does not exist on its server. Make the database there first.`;
  if (code === '42501')
    return `${at} may not be written by this user. Give it the right to create tables there.`;
  if (code === '25006') return `${at} is read-only now (a standby?). Use the server that takes writes.`;
  if (code === '53100')
    return `There is no room left on the disk of ${place}; the last entry was not kept. Free some space and enter it again.`;
  if (code === '53300')
    return `${at} has no connection free. Close other programs that use it, then try again.`;
  if (code === '57P03' || code === '57P01')
    return `${at} is starting or stopping. Try again in a moment; nothing of this entry was kept.`;
  if (code === '57014' || code === '55P03')
    return `${at} takes too long: another program keeps it busy. Try again; nothing of this entry was kept.`;
  if (code.startsWith('XX') || code === '58030')
    return `${at} reports a fault of its own disk; the last entry was not kept. Look at the server.`;
  return null;
}
