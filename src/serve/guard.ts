/**
 * Who may ask, and what the browser is told about every answer. The server has no password: it listens on this
 * computer only, and the checks here keep a web page from elsewhere from speaking to it through the mechanic's own
 * browser, by a form (CSRF) or by a host name that points here (DNS rebinding).
 */
import type { Context, MiddlewareHandler } from 'hono';

/** `self` for everything: no other host, nothing inline, no frame around it; pictures also out of the page's own memory. */
const POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  // A photograph that was just taken is shown out of this browser.
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** The microphone is for the spoken “done” and “next” at the bench, and asked for by the browser when they are switched on. */
const HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'x-frame-options': 'DENY',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'geolocation=(), microphone=(self), camera=()',
};

const HOST = /^(?:localhost|127\.0\.0\.1)(?::\d{1,5})?$/i;

/** Puts the headers on every answer, also on errors. A stricter policy that is there already stays. */
export const tellBrowser: MiddlewareHandler = async (c, next) => {
  await next();
  for (const [name, value] of Object.entries(HEADERS))
    if (name !== 'content-security-policy' || !c.res.headers.has(name)) c.header(name, value);
};

/** Lets through only what was addressed to this computer by name or number, and on /api only its own pages. */
export const onlyFromHere: MiddlewareHandler = fromOwnPages(
  'http',
  (host) => HOST.test(host),
  'This server answers only at localhost or 127.0.0.1; open the address it printed when it started.',
);

/** At the encrypted door: this computer's own addresses, its own pages, and on /api only devices that were let in. */
export function onlyLetIn(
  isOurs: (host: string) => boolean,
  isLetIn: (c: Context) => boolean,
): readonly MiddlewareHandler[] {
  return [
    fromOwnPages(
      'https',
      isOurs,
      'This is not an address of this computer; scan the code on the laptop again.',
    ),
    async (c, next) => {
      const open = c.req.path === '/api/pair' || c.req.path === '/api/health';
      if (!isApi(c.req.path) || open || isLetIn(c)) return next();
      return c.json(
        {
          error:
            'This device is not paired with the laptop, or no longer: scan the code on the laptop, under Devices.',
        },
        401,
      );
    },
  ];
}

/** Keeps off other hosts' names and other sites' pages. */
function fromOwnPages(
  scheme: 'http' | 'https',
  isOurs: (host: string) => boolean,
  elsewhere: string,
): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host') ?? '';
    if (!isOurs(host)) return refuse(c, elsewhere);
    const origin = c.req.header('origin');
    const site = c.req.header('sec-fetch-site');
    const foreign =
      (origin !== undefined && origin.toLowerCase() !== `${scheme}://${host.toLowerCase()}`) ||
      (isApi(c.req.path) && site !== undefined && site !== 'same-origin' && site !== 'none');
    if (foreign)
      return refuse(
        c,
        'A page from another address may not use this server; open the address it printed when it started.',
      );
    return next();
  };
}

export function isApi(path: string): boolean {
  return path === '/api' || path.startsWith('/api/');
}

function refuse(c: Context, error: string): Response {
  return c.json({ error }, 403);
}
