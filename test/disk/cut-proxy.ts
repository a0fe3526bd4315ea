/** Stands between a store and its PostgreSQL server, and breaks the way between them at a moment of the test's choice. */
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';
import { join } from 'node:path';

export interface CutProxy {
  /** Address of a database of the server behind it. */
  readonly url: (database: string) => string;
  /** Cuts the connection when the server answers COMMIT, as many times as said: the answer is lost, the work is done. */
  loseCommits: number;
  /** Cuts the connection before COMMIT gets to the server, as many times as said: the work is undone. */
  stopCommits: number;
  /** Lets nothing through once this text has been asked, as many times as said: a laptop that was shut. */
  freeze: { readonly at: string; times: number };
  /** Lets what was frozen go on. */
  readonly thaw: () => void;
  /** What was lost, stopped and frozen. */
  readonly done: () => number;
  readonly close: () => Promise<void>;
}

/** `server` is an address with a socket's folder as its host. */
export async function openCutProxy(server: string): Promise<CutProxy> {
  const folder = new URL(server).searchParams.get('host')!;
  const sockets = new Set<Socket>();
  const frozen: Socket[] = [];
  let cuts = 0;
  const door = createServer((here) => {
    const there = connect({ path: join(folder, '.s.PGSQL.5432') });
    let losing = false;
    for (const socket of [here, there]) {
      sockets.add(socket);
      socket.on('error', () => undefined);
      socket.on('close', () => {
        sockets.delete(socket);
        here.destroy();
        there.destroy();
      });
    }
    here.on('data', (part) => {
      const asked = part.toString('latin1');
      if (asked.includes('COMMIT')) {
        if (proxy.stopCommits > 0) {
          proxy.stopCommits -= 1;
          cuts += 1;
          here.destroy();
          return;
        }
        if (proxy.loseCommits > 0) {
          proxy.loseCommits -= 1;
          cuts += 1;
          losing = true;
        }
      }
      there.write(part);
      if (proxy.freeze.times > 0 && asked.includes(proxy.freeze.at)) {
        proxy.freeze.times -= 1;
        cuts += 1;
        here.pause();
        there.pause();
        frozen.push(here, there);
      }
    });
    there.on('data', (part) => {
      if (losing) here.destroy();
      else here.write(part);
    });
  });
  await new Promise<void>((ready) => door.listen(0, '127.0.0.1', ready));
  const { port } = door.address() as AddressInfo;
  const proxy: CutProxy = {
    url: (database) => `postgres://postgres@127.0.0.1:${port}/${database}`,
    loseCommits: 0,
    stopCommits: 0,
    freeze: { at: '', times: 0 },
    thaw: () => {
      for (const socket of frozen.splice(0)) socket.resume();
    },
    done: () => cuts,
    close: () =>
      new Promise((closed) => {
        for (const socket of sockets) socket.destroy();
        door.close(() => closed());
      }),
  };
  return proxy;
}
