import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import type { JobStore } from '../../src/log/store.ts';
import { openDevices } from '../../src/serve/devices.ts';
import { openDoors } from '../../src/serve/doors.ts';
import { listen } from '../../src/serve/listen.ts';
import { PACKAGE } from '../package-folder.ts';

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
  readonly bytes: Buffer;
  /** Parsed body; throws when it is not JSON. */
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers as they please
  readonly json: () => any;
}

export interface Ask {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Buffer;
  /** Sends the body in pieces without saying how long it is. */
  readonly chunked?: boolean;
}

export interface Garage {
  readonly folder: string;
  readonly port: number;
  readonly store: JobStore;
  /** Faults the server reported. */
  readonly faults: readonly unknown[];
  /** Sends a path as it is, without tidying it up as a browser would. */
  readonly ask: (path: string, how?: Ask) => Promise<Answer>;
  readonly post: (
    path: string,
    value: unknown,
    headers?: Readonly<Record<string, string>>,
  ) => Promise<Answer>;
  readonly close: () => Promise<void>;
}

/** A server of its own with a store, machine files and a small app in a folder of its own. */
export async function openGarage(
  change: (store: JobStore) => JobStore = (store) => store,
  of: {
    readonly appFolder?: string;
    readonly offline?: boolean;
    readonly now?: () => number;
    /** Where to make its folder; elsewhere than usual for a disk that is full. */
    readonly on?: string;
    /** Room for photographs there, bytes; as the disk says unless given. */
    readonly room?: number;
  } = {},
): Promise<Garage> {
  const folder = mkdtempSync(join(of.on ?? tmpdir(), 'chargewright-serve-'));
  const appFolder = join(folder, 'app');
  mkdirSync(join(appFolder, 'assets'), { recursive: true });
  writeFileSync(join(appFolder, 'index.html'), '<!doctype html><title>Chargewright</title>');
  writeFileSync(join(appFolder, 'assets', 'main-abc123.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'not for anybody');
  const store = openSqliteStore(join(folder, 'garage.sqlite'));
  const faults: unknown[] = [];
  const machinesFolder = join(PACKAGE, 'machines');
  const doors = openDoors({
    store: change(store),
    photos: await openPhotoShelf(
      join(folder, 'garage.sqlite.photos'),
      ...(of.room === undefined ? [] : [async () => of.room!]),
    ),
    machinesFolder,
    ownMachinesFolder: join(folder, 'machines'),
    appFolder: of.appFolder ?? appFolder,
    offline: of.offline ?? true,
    report: (fault) => faults.push(fault),
    devices: await openDevices(join(folder, 'devices.json'), of.now ?? Date.now),
    certificatesFolder: join(folder, 'certificates'),
    sharePort: 0,
    addresses: () => ['127.0.0.1'],
  });
  const listening = await listen(doors.here, 0);
  const ask = (path: string, how: Ask = {}) => send(listening.port, path, how);
  return {
    folder,
    port: listening.port,
    store,
    faults,
    ask,
    post: (path, value, headers = {}) =>
      ask(path, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...headers },
        body: JSON.stringify(value),
      }),
    close: async () => {
      await doors.close();
      await listening.close();
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export function send(
  port: number,
  path: string,
  { method = 'GET', headers = {}, body, chunked = false }: Ask,
): Promise<Answer> {
  return new Promise((done, fail) => {
    const length = body === undefined || chunked ? {} : { 'content-length': String(Buffer.byteLength(body)) };
    const asking = request(
      { host: '127.0.0.1', port, path, method, headers: { ...length, ...headers }, agent: false },
      (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.on('error', fail);
        response.on('end', () => {
          const bytes = Buffer.concat(parts);
          const text = bytes.toString('utf8');
          done({
            status: response.statusCode ?? 0,
            headers: response.headers,
            text,
            bytes,
            json: () => JSON.parse(text),
          });
        });
      },
    );
    asking.on('error', fail);
    if (chunked && body !== undefined)
      for (let at = 0; at < body.length; at += 65_536) asking.write(body.slice(at, at + 65_536));
    else if (body !== undefined) asking.write(body);
    asking.end();
  });
}
