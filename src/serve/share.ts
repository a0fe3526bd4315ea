/**
 * The door for other devices: encrypted, on every address this computer has in the garage's network, with the landing page
 * beside it. Shut unless the mechanic opens it here.
 */
import { createServer as createPlain, type Server } from 'node:http';
import { createServer as createSecure } from 'node:https';
import { hostname, networkInterfaces } from 'node:os';
import { createAdaptorServer } from '@hono/node-server';
import type { Hono } from 'hono';
import { openCertificates } from './certificates.ts';
import { openLanding } from './landing.ts';
import { closeServer, explainPort } from './listen.ts';

export interface Door {
  /** Host and port of the encrypted door, the address others are told first. */
  readonly hosts: readonly string[];
  /** Addresses of the landing page, the likeliest first. */
  readonly landings: readonly string[];
}

export interface Share {
  readonly door: () => Door | null;
  /** Opens the door; opening it twice is allowed. Rejects with PortFault. */
  readonly open: () => Promise<Door>;
  readonly shut: () => Promise<void>;
}

/** Addresses of this computer in networks, IPv4. */
export function ownAddresses(): readonly string[] {
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
}

/** A name that others may find this computer by, where its own is one. */
function ownName(): readonly string[] {
  const name = hostname().toLowerCase().split('.')[0] ?? '';
  return /^[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?$/.test(name) ? [`${name}.local`] : [];
}

export interface ShareParts {
  /** Folder of the certificates. */
  readonly folder: string;
  /** Port of the encrypted door; the landing page has the next one. 0 = any two. */
  readonly port: number;
  /** What stands behind the door. `isOurs` says whether a host is one of this computer's. */
  readonly app: (isOurs: (host: string) => boolean) => Hono;
  readonly addresses?: () => readonly string[];
}

export function openShare({ folder, port, app, addresses = ownAddresses }: ShareParts): Share {
  let door: Door | null = null;
  let servers: Server[] = [];
  let opening: Promise<Door> | null = null;

  const open = async (): Promise<Door> => {
    const own = addresses();
    const names = ownName();
    const { authority, cert, key } = await openCertificates(
      folder,
      ['localhost', ...names],
      [...new Set([...own, '127.0.0.1'])],
      new Date(),
    );
    const known = new Set([...own, ...names, '127.0.0.1', 'localhost']);
    const isOurs = (host: string): boolean => known.has(host.toLowerCase().replace(/:\d{1,5}$/, ''));
    const secure = createAdaptorServer({
      fetch: app(isOurs).fetch,
      createServer: createSecure,
      serverOptions: { cert, key, minVersion: 'TLSv1.2' },
    }) as Server;
    const securePort = await listenOn(secure, port);
    const first = own[0] ?? names[0] ?? 'localhost';
    const landing = createAdaptorServer({
      fetch: openLanding(authority, `${first}:${securePort}`).fetch,
      createServer: createPlain,
    }) as Server;
    try {
      const plainPort = await listenOn(landing, port === 0 ? 0 : port + 1);
      servers = [secure, landing];
      const all = own.length > 0 ? own : ['localhost'];
      door = {
        hosts: [...all, ...names].map((host) => `${host}:${securePort}`),
        landings: [...all, ...names].map((host) => `http://${host}:${plainPort}/`),
      };
      return door;
    } catch (error) {
      await closeServer(secure);
      throw error;
    }
  };
  return {
    door: () => door,
    open: () => {
      if (door) return Promise.resolve(door);
      opening ??= open().finally(() => {
        opening = null;
      });
      return opening;
    },
    shut: async () => {
      await opening?.catch(() => undefined);
      door = null;
      const all = servers;
      servers = [];
      await Promise.all(all.map(closeServer));
    },
  };
}

function listenOn(server: Server, port: number): Promise<number> {
  return new Promise((done, fail) => {
    server.once('error', (error) => fail(explainPort(port, error)));
    server.listen(port, '0.0.0.0', () => {
      const address = server.address();
      done(typeof address === 'object' && address ? address.port : port);
    });
  });
}
