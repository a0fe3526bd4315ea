/** Letting a device in: the encrypted door, its certificate as OpenSSL sees it, invitations, tokens, and shutting out. */
import { X509Certificate } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { request } from 'node:https';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import { openCertificates } from '../../src/serve/certificates.ts';
import { INVITED_MS } from '../../src/serve/devices.ts';
import { type Garage, openGarage } from './garage.ts';

interface Told {
  readonly status: number;
  readonly text: string;
  readonly cookie: string | null;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
}

describe('the door for other devices', () => {
  let garage: Garage;
  let host = '';
  let landing = '';
  let authority = '';
  let now = 0;

  /** Asks at the encrypted door as a device that trusts the garage's authority, and nothing else. */
  const ask = (
    path: string,
    {
      method = 'GET',
      headers = {},
      body,
    }: { method?: string; headers?: Record<string, string>; body?: unknown } = {},
  ): Promise<Told> =>
    new Promise((done, fail) => {
      const [name, port] = host.split(':');
      const sent = body === undefined ? undefined : JSON.stringify(body);
      const asking = request(
        {
          host: name,
          port,
          path,
          method,
          ca: authority,
          // The certificate is looked at for a name of its own, whatever the request calls the host.
          servername: 'localhost',
          agent: false,
          headers: {
            ...(sent === undefined
              ? {}
              : { 'content-type': 'application/json', 'content-length': Buffer.byteLength(sent) }),
            ...headers,
          },
        },
        (response) => {
          let text = '';
          response.on('data', (part) => {
            text += String(part);
          });
          response.on('end', () =>
            done({
              status: response.statusCode ?? 0,
              text,
              cookie: response.headers['set-cookie']?.[0] ?? null,
              headers: response.headers,
            }),
          );
        },
      );
      asking.on('error', fail);
      asking.end(sent);
    });
  const invite = async (): Promise<string> => {
    const answer = (await garage.post('/api/devices/invite', {})).json() as { landings: string[] };
    return new URL(answer.landings[0]!).hash.slice(1);
  };
  const pair = (secret: string, name = 'tablet at the lift') =>
    ask('/api/pair', { method: 'POST', body: { secret, name } });
  const cookieOf = ({ cookie }: Told) => ({ cookie: cookie!.split(';')[0]! });

  beforeEach(async () => {
    now = Date.UTC(2026, 10, 27);
    garage = await openGarage((store) => store, { now: () => now });
    await garage.store.append(demoJob());
    const opened = (await garage.post('/api/devices/door', { open: true })).json() as {
      door: { hosts: string[]; landings: string[] };
    };
    host = opened.door.hosts[0]!;
    landing = opened.door.landings[0]!;
    authority = await (await fetch(`${landing}garage.crt`)).text();
  });
  afterEach(() => garage.close());

  it('is encrypted by a certificate of the garage’s authority, for servers only, and short enough for phones', async () => {
    expect((await ask('/api/health')).status).toBe(200);
    const folder = join(garage.folder, 'certificates');
    const leaf = new X509Certificate(readFileSync(join(folder, 'server.crt')));
    const root = new X509Certificate(authority);
    expect(leaf.verify(root.publicKey)).toBe(true);
    expect([leaf.ca, root.ca]).toEqual([false, true]);
    expect(leaf.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1']);
    expect(leaf.checkIP('127.0.0.1')).toBe('127.0.0.1');
    const days = (Date.parse(leaf.validTo) - Date.parse(leaf.validFrom)) / 86_400_000;
    expect(days).toBeLessThan(825);
    for (const name of ['server.key', 'authority.key'])
      expect(statSync(join(folder, name)).mode & 0o077, name).toBe(0);
  });

  it('keeps its certificates, and makes a new one for a new address from the same authority', async () => {
    const folder = join(garage.folder, 'more');
    const at = new Date();
    const first = await openCertificates(folder, ['localhost'], ['10.0.0.5'], at);
    expect(await openCertificates(folder, ['localhost'], ['10.0.0.5'], at)).toEqual(first);
    const moved = await openCertificates(folder, ['localhost'], ['10.0.0.6'], at);
    expect(moved.authority).toBe(first.authority);
    expect(moved.cert).not.toBe(first.cert);
    const later = await openCertificates(
      folder,
      ['localhost'],
      ['10.0.0.6'],
      new Date(at.getTime() + 380 * 864e5),
    );
    expect(later.cert).not.toBe(moved.cert);
  });

  it('shows nothing of a job to a device that was not let in, but hands out the app', async () => {
    for (const path of [
      '/api/jobs',
      '/api/jobs/demo-ferry-run',
      '/api/jobs/demo-ferry-run/stream',
      '/api/machines',
      '/api/devices',
      `/api/photos/${'a'.repeat(64)}`,
    ])
      expect([path, (await ask(path)).status]).toEqual([path, 401]);
    const picture = await ask(`/api/photos/${'a'.repeat(64)}`, { method: 'PUT' });
    expect(picture.status).toBe(401);
    const written = await ask('/api/jobs', { method: 'POST', body: demoJob() });
    expect(written.status).toBe(401);
    const page = await ask('/');
    expect(page.status).toBe(200);
    expect(page.headers['content-security-policy']).toContain("default-src 'self'");
  });

  it('lets a device in once for a code, with a token that no script reads and of which only a hash is kept', async () => {
    const secret = await invite();
    const told = await pair(secret);
    expect(told.status).toBe(200);
    expect(told.cookie).toMatch(
      /^__Host-chargewright=[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    );
    const headers = cookieOf(told);
    expect((await ask('/api/jobs', { headers })).status).toBe(200);
    expect((await ask('/api/jobs/demo-ferry-run', { headers })).text).toContain('ferry');
    const kept = readFileSync(join(garage.folder, 'devices.json'), 'utf8');
    expect(kept).toContain('tablet at the lift');
    expect(kept).not.toContain(headers.cookie.split('=')[1]!);
    expect(statSync(join(garage.folder, 'devices.json')).mode & 0o077).toBe(0);
    // The code is used up.
    expect((await pair(secret)).status).toBe(403);
    // A paired device works on jobs; whom to let in stays the laptop's business.
    expect((await ask('/api/devices', { headers })).status).toBe(404);
  });

  it('shuts a device out at once', async () => {
    const headers = cookieOf(await pair(await invite()));
    const { devices } = (await garage.ask('/api/devices')).json() as { devices: { id: string }[] };
    expect((await garage.post(`/api/devices/${devices[0]!.id}/out`, {})).status).toBe(200);
    expect((await ask('/api/jobs', { headers })).status).toBe(401);
    expect((await garage.post('/api/devices/nobody/out', {})).status).toBe(404);
  });

  it('takes a code for ten minutes, and only the newest', async () => {
    const old = await invite();
    const fresh = await invite();
    expect((await pair(old)).status).toBe(403);
    now += INVITED_MS + 1;
    const late = await pair(fresh);
    expect(late.status).toBe(403);
    expect(JSON.parse(late.text).error).toContain('no longer holds');
  });

  it('stops who guesses', async () => {
    const secret = await invite();
    for (let n = 0; n < 8; n++) expect((await pair(`guess-${n}`)).status).toBe(403);
    expect((await pair(secret)).status).toBe(429);
    now += 61_000;
    expect((await pair(secret)).status).toBe(200);
  });

  it('keeps off other names and other sites', async () => {
    expect((await ask('/api/health', { headers: { host: 'evil.example' } })).status).toBe(403);
    expect((await ask('/api/health', { headers: { origin: 'https://evil.example' } })).status).toBe(403);
    expect((await ask('/api/jobs', { headers: { cookie: '__Host-chargewright=nonsense' } })).status).toBe(
      401,
    );
  });

  it('refuses what is no pairing in one sentence', async () => {
    for (const body of [
      {},
      [],
      { secret: 1, name: 'x' },
      { secret: 'x'.repeat(65), name: 'x' },
      { secret: 'x', name: 'y'.repeat(41) },
    ]) {
      const told = await ask('/api/pair', { method: 'POST', body });
      expect(told.status).toBe(400);
      expect(JSON.parse(told.text).error).toMatch(/^Pairing wants .*\.$/);
    }
  });

  it('hands out without encryption only the way to it', async () => {
    const page = await (await fetch(landing)).text();
    expect(page).toContain(host);
    expect(page).not.toContain('ferry');
    for (const path of ['api/jobs', 'index.html', 'api/devices'])
      expect([path, (await fetch(`${landing}${path}`)).status]).toEqual([path, 404]);
  });

  it('shuts', async () => {
    expect((await garage.post('/api/devices/door', { open: false })).json()).toMatchObject({ door: null });
    await expect(ask('/api/health')).rejects.toThrow();
    expect((await garage.post('/api/devices/invite', {})).status).toBe(409);
    expect((await garage.post('/api/devices/door', { open: 'wide' })).status).toBe(400);
  });
});
