/**
 * The built app, handed out file by file. Only what a walk through the folder has found can be asked for: a path is
 * looked up in that list and never put together, so there is nothing to climb out of.
 */
import { readdir, readFile, stat } from 'node:fs/promises';
import { extname, join, relative, sep } from 'node:path';
import { promisify } from 'node:util';
import { constants, gzip } from 'node:zlib';
import type { Context } from 'hono';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.json': 'application/json',
  '.map': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
};

/** What shrinks by packing; pictures and fonts are packed already. */
const PACKED = new Set(['.html', '.js', '.css', '.svg', '.json', '.map', '.webmanifest', '.txt', '.wasm']);
const pack = promisify(gzip);

const NOT_BUILT =
  'The app has not been built yet. Run "npm start" in the folder of Chargewright, which builds it.';

/** Answers GET and HEAD with a file of the folder, or with its index.html for the app's own addresses. */
export function openFiles(folder: string): (c: Context) => Promise<Response> {
  let known: ReadonlyMap<string, string> = new Map();
  /** Files packed once, by path; the tag tells which content. */
  const packed = new Map<string, Packed>();
  const find = async (path: string): Promise<string | undefined> => {
    // A new build brings new names: what is not known is looked for once more.
    if (!known.has(path)) known = await walk(folder);
    return known.get(path);
  };
  return async (c) => {
    if (c.req.method !== 'GET' && c.req.method !== 'HEAD') {
      return c.json({ error: 'This address can only be read.' }, 405, { allow: 'GET, HEAD' });
    }
    const path = decode(new URL(c.req.url).pathname);
    const page = path !== null && extname(path) === '';
    const file = path === null ? undefined : await find(page ? '/index.html' : path);
    // A file with its content in its name may lie beside itself packed tighter than would be quick enough here.
    const tight = known.get(`${path}.br`);
    if (file) return send(c, file, path!.startsWith('/assets/'), packed, tight);
    return page ? c.text(NOT_BUILT, 503) : c.text('There is no such file here.', 404);
  };
}

function decode(path: string): string | null {
  try {
    return decodeURIComponent(path);
  } catch {
    return null;
  }
}

async function walk(folder: string): Promise<ReadonlyMap<string, string>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  return new Map(files.map((file) => [`/${relative(folder, file).split(sep).join('/')}`, file]));
}

interface Packed {
  readonly tag: string;
  readonly bytes: Promise<Buffer>;
}

/** `named` files carry a hash of their content in their name and never change. */
async function send(
  c: Context,
  file: string,
  named: boolean,
  packed: Map<string, Packed>,
  tight: string | undefined,
): Promise<Response> {
  const { mtimeMs, size } = await stat(file);
  const kind = extname(file);
  const small = PACKED.has(kind);
  const takesTight = named && tight !== undefined && /\bbr\b/.test(c.req.header('accept-encoding') ?? '');
  const zip = small && !takesTight && /\bgzip\b/.test(c.req.header('accept-encoding') ?? '');
  const tag = `W/"${Math.round(mtimeMs).toString(36)}-${size.toString(36)}"`;
  const headers = {
    'content-type': TYPES[kind] ?? 'application/octet-stream',
    'cache-control': named ? 'public, max-age=31536000, immutable' : 'no-cache',
    etag: tag,
    ...(small ? { vary: 'accept-encoding' } : {}),
    ...(takesTight ? { 'content-encoding': 'br' } : zip ? { 'content-encoding': 'gzip' } : {}),
  };
  if (c.req.header('if-none-match') === tag) return c.body(null, 304, headers);
  if (takesTight) return c.body(new Uint8Array(await readFile(tight)), 200, headers);
  if (!zip) return c.body(new Uint8Array(await readFile(file)), 200, headers);
  let bytes = packed.get(file);
  if (bytes?.tag !== tag) {
    bytes = {
      tag,
      bytes: readFile(file).then((read) => pack(read, { level: constants.Z_BEST_COMPRESSION })),
    };
    packed.set(file, bytes);
  }
  return c.body(new Uint8Array(await bytes.bytes), 200, headers);
}
