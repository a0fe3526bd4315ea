/** Stands between a page and the laptop, and falls silent: connections stand and new ones are taken, but not a byte passes. */
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';

export interface SilentProxy {
  readonly address: string;
  /** From now on nothing passes, over old connections and new ones. */
  readonly hush: () => void;
  /** New connections pass again; the old ones stay half-open, as they do when a router has forgotten them. */
  readonly speak: () => void;
  /** Connections that were taken while it was silent, count. */
  readonly swallowed: () => number;
  readonly close: () => Promise<void>;
}

export async function openSilentProxy(laptop: string): Promise<SilentProxy> {
  const { hostname, port } = new URL(laptop);
  const sockets = new Set<Socket>();
  let silent = false;
  let swallowed = 0;
  /** Raised at each silence: what belongs to an earlier one stays dumb. */
  let age = 0;
  const hold = (socket: Socket): void => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => sockets.delete(socket));
  };
  const server = createServer((here) => {
    hold(here);
    if (silent) {
      swallowed += 1;
      here.resume();
      return;
    }
    const born = age;
    const there = connect(Number(port), hostname);
    hold(there);
    const passes = (): boolean => !silent && age === born;
    here.on('data', (part) => passes() && there.write(part));
    there.on('data', (part) => passes() && here.write(part));
    here.on('close', () => there.destroy());
    there.on('close', () => passes() && here.destroy());
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    hush: () => {
      silent = true;
      age += 1;
    },
    speak: () => {
      silent = false;
    },
    swallowed: () => swallowed,
    close: () =>
      new Promise((closed) => {
        for (const socket of sockets) socket.destroy();
        server.close(() => closed());
      }),
  };
}
