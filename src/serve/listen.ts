/** Opens the port, on this computer only, and closes it without cutting off an answer. */
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';
import type { Hono } from 'hono';
import { DEFAULT_PORT } from './settings.ts';

/** How long a running answer may take after the server was told to stop, ms. */
const FAREWELL_MS = 2000;

/** The port could not be opened; the message is meant for the mechanic. */
export class PortFault extends Error {
  constructor(message: string, cause: unknown) {
    super(message, { cause });
    this.name = 'PortFault';
  }
}

export interface Listening {
  readonly port: number;
  /** Stops taking requests, lets running ones end, then answers. */
  readonly close: () => Promise<void>;
}

/** Listens on 127.0.0.1; port 0 takes any free one. Rejects with PortFault. */
export function listen(app: Hono, port: number): Promise<Listening> {
  const server = createAdaptorServer({ fetch: app.fetch }) as Server;
  return new Promise((done, fail) => {
    server.once('error', (error) => fail(explainPort(port, error)));
    server.listen(port, '127.0.0.1', () => {
      done({ port: (server.address() as AddressInfo).port, close: () => closeServer(server) });
    });
  });
}

/** Stops taking requests and lets running ones end. */
export function closeServer(server: Server): Promise<void> {
  return new Promise((done) => {
    const impatience = setTimeout(() => server.closeAllConnections(), FAREWELL_MS);
    server.close(() => {
      clearTimeout(impatience);
      done();
    });
    server.closeIdleConnections();
  });
}

/** What a port that cannot be opened means, in a sentence. */
export function explainPort(port: number, error: NodeJS.ErrnoException): Error {
  const other = port === DEFAULT_PORT ? DEFAULT_PORT + 1 : DEFAULT_PORT;
  if (error.code === 'EADDRINUSE') {
    return new PortFault(
      `Port ${port} is in use by another program, perhaps by Chargewright in another window. Stop that one, or choose another port: PORT=${other} npm start`,
      error,
    );
  }
  if (error.code === 'EACCES') {
    return new PortFault(
      `Port ${port} may not be opened by this user. Choose another: PORT=${other} npm start`,
      error,
    );
  }
  return error;
}
