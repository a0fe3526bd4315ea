import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { opening, story } from '../job/stories.ts';
import { type Garage, openGarage, send } from './garage.ts';

let garage: Garage;
beforeAll(async () => {
  garage = await openGarage();
});
afterAll(() => garage.close());

const [opened] = story([opening]);

describe('who may ask', () => {
  it.each(['localhost', 'LOCALHOST', '127.0.0.1', 'localhost:4280', '127.0.0.1:1'])(
    'answers at %s',
    async (host) => {
      expect((await garage.ask('/api/health', { headers: { host } })).status).toBe(200);
    },
  );

  it.each([
    'evil.example',
    'evil.example:4280',
    'localhost.evil.example',
    '127.0.0.1.evil.example',
    '127.0.0.2',
    '0.0.0.0',
    '[::1]',
    'localhost:4280:1',
    'a@localhost',
  ])('does not answer at %s: a name may be made to point here', async (host) => {
    for (const path of ['/api/health', '/', '/assets/main-abc123.js']) {
      const answer = await garage.ask(path, { headers: { host } });
      expect([400, 403]).toContain(answer.status);
      expect(answer.text).not.toMatch(/"ok":true|<title>|export/);
    }
  });

  it.each([
    'https://evil.example',
    'http://localhost:1',
    'null',
    'http://localhost.evil.example',
    'https://localhost:4280',
  ])('keeps nothing from a page of %s', async (origin) => {
    const answer = await garage.post('/api/jobs', opened, { origin, host: 'localhost:4280' });
    expect(answer.status).toBe(403);
    expect(answer.json().error).toMatch(/another address/);
    expect(await garage.store.jobs()).toEqual([]);
  });

  it('goes by what the browser says of the sender too, but lets a link open the app', async () => {
    for (const site of ['cross-site', 'same-site']) {
      expect((await garage.ask('/api/jobs', { headers: { 'sec-fetch-site': site } })).status).toBe(403);
      expect((await garage.ask('/', { headers: { 'sec-fetch-site': site } })).status).toBe(200);
    }
    const own = { origin: 'http://localhost:4280', host: 'localhost:4280', 'sec-fetch-site': 'same-origin' };
    expect((await garage.ask('/api/jobs', { headers: own })).status).toBe(200);
  });

  it('grants no other origin anything', async () => {
    const preflight = await garage.ask('/api/jobs', {
      method: 'OPTIONS',
      headers: { origin: 'https://evil.example', 'access-control-request-method': 'POST' },
    });
    expect(preflight.status).toBe(403);
    expect(Object.keys(preflight.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });

  it('listens on this computer only', async () => {
    const outward = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter((one) => !one.internal && one.family === 'IPv4');
    for (const { address } of outward) {
      await expect(
        fetch(`http://${address}:${garage.port}/api/health`, { signal: AbortSignal.timeout(2000) }),
      ).rejects.toThrow();
    }
    expect((await send(garage.port, '/api/health', {})).status).toBe(200);
  });
});

describe('what the browser is told', () => {
  it.each(['/', '/api/health', '/api/none', '/assets/main-abc123.js', '/assets/none.js'])(
    'of %s: a strict policy',
    async (path) => {
      const { headers } = await garage.ask(path);
      const policy = new Map(
        String(headers['content-security-policy'])
          .split('; ')
          .map((line) => [line.split(' ')[0], line.split(' ').slice(1).join(' ')]),
      );
      expect(policy.get('default-src')).toBe("'self'");
      expect(policy.get('worker-src')).toBe("'self'");
      expect(policy.get('style-src')).toBe("'self'");
      expect(policy.get('frame-ancestors')).toBe("'none'");
      expect(policy.get('img-src')).toBe("'self' blob:");
      policy.delete('img-src');
      for (const value of policy.values()) expect(value).toMatch(/^'(self|none)'$/);
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['referrer-policy']).toBe('no-referrer');
    },
  );

  it('also of a refusal', async () => {
    const { headers } = await garage.ask('/', { headers: { host: 'evil.example' } });
    expect(headers['content-security-policy']).toContain("default-src 'self'");
  });
});

describe('addresses', () => {
  it('answers 404 in JSON for what is not under /api, whatever the verb', async () => {
    for (const [path, method] of [
      ['/api', 'GET'],
      ['/api/', 'GET'],
      ['/api/nothing', 'POST'],
      ['/api/jobs/j1/events/x', 'GET'],
      ['/api/index.html', 'GET'],
    ]) {
      const answer = await garage.ask(path!, { method: method! });
      expect(answer.status, path).toBe(404);
      expect(answer.json().error).toMatch(/\.$/);
    }
  });

  it('answers 405 with the verbs it takes', async () => {
    const answer = await garage.ask('/api/jobs', { method: 'DELETE' });
    expect(answer.status).toBe(405);
    expect(answer.headers.allow).toBe('GET, HEAD, POST');
    expect((await garage.ask('/', { method: 'PUT' })).status).toBe(405);
    expect((await garage.ask('/api/jobs', { method: 'HEAD' })).status).toBe(200);
  });

  it('gives the app for its own addresses, and 404 for a file that is not there', async () => {
    for (const path of ['/', '/job/demo-ferry-run/readings', '/?x=1']) {
      const answer = await garage.ask(path);
      expect(answer.status).toBe(200);
      expect(answer.headers['content-type']).toBe('text/html; charset=utf-8');
      expect(answer.headers['cache-control']).toBe('no-cache');
    }
    const script = await garage.ask('/assets/main-abc123.js');
    expect(script.headers['content-type']).toBe('text/javascript; charset=utf-8');
    expect(script.headers['cache-control']).toContain('immutable');
    expect((await garage.ask('/assets/none.js')).status).toBe(404);
    const again = await garage.ask('/', {
      headers: { 'if-none-match': String((await garage.ask('/')).headers.etag) },
    });
    expect([again.status, again.text]).toEqual([304, '']);
  });

  it('packs texts for who takes them packed, and gives the newest content of a file', async () => {
    const file = join(garage.folder, 'app', 'assets', 'long-0a1b2c.js');
    const at = `http://127.0.0.1:${garage.port}`;
    // fetch asks for packed answers and opens them (Fetch Standard, 4.5).
    for (const word of ['first', 'second and longer']) {
      const text = `// ${word}\n${'export const a = 1;\n'.repeat(500)}`;
      writeFileSync(file, text);
      const got = await fetch(`${at}/assets/long-0a1b2c.js`);
      expect(got.headers.get('content-encoding')).toBe('gzip');
      expect(got.headers.get('vary')).toBe('accept-encoding');
      expect(await got.text()).toBe(text);
      const plain = await garage.ask('/assets/long-0a1b2c.js');
      expect([plain.headers['content-encoding'], plain.text]).toEqual([undefined, text]);
    }
    // What the build packed beforehand is given as it lies, to who takes it.
    rmSync(file);
    const text = 'export const tight = 1;\n';
    const other = join(garage.folder, 'app', 'assets', 'tight-1a2b3c.js');
    writeFileSync(other, text);
    writeFileSync(`${other}.br`, brotliCompressSync(text));
    const packed = await fetch(`${at}/assets/tight-1a2b3c.js`, {
      headers: { 'accept-encoding': 'gzip, br' },
    });
    expect(packed.headers.get('content-encoding')).toBe('br');
    expect(packed.headers.get('vary')).toBe('accept-encoding');
    expect(await packed.text()).toBe(text);
    const zipped = await fetch(`${at}/assets/tight-1a2b3c.js`, { headers: { 'accept-encoding': 'gzip' } });
    expect([zipped.headers.get('content-encoding'), await zipped.text()]).toEqual(['gzip', text]);
    for (const one of [other, `${other}.br`]) rmSync(one);
    const machine = await fetch(`${at}/api/machines/ardmoor-650-pathway`);
    expect(machine.headers.get('content-encoding')).toBe('gzip');
    expect(JSON.parse(await machine.text())).toHaveProperty('about');
  });

  it('finds a file of a newer build', async () => {
    const file = join(garage.folder, 'app', 'assets', 'later-def456.js');
    expect((await garage.ask('/assets/later-def456.js')).status).toBe(404);
    writeFileSync(file, 'export {};');
    expect((await garage.ask('/assets/later-def456.js')).status).toBe(200);
    rmSync(file);
  });

  it.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e%2fsecret.txt',
    '/..\\secret.txt',
    '//secret.txt',
    '/assets/%00.js',
    '/%ff.txt',
    '/assets/..%5c..%5csecret.txt',
    '/%252e%252e%252fsecret.txt',
  ])('does not climb out of its folder by %s', async (path) => {
    const answer = await garage.ask(path);
    expect([400, 404]).toContain(answer.status);
    expect(answer.text).not.toContain('not for anybody');
  });

  it('says what to do while the app is not built', async () => {
    const bare = await openGarage();
    rmSync(join(bare.folder, 'app'), { recursive: true });
    const answer = await bare.ask('/');
    expect(answer.status).toBe(503);
    expect(answer.text).toMatch(/npm start/);
    await bare.close();
  });
});

describe('machines', () => {
  it('are listed by name, each to be read as its file is', async () => {
    const { machines } = (await garage.ask('/api/machines')).json();
    expect(machines).toContainEqual({
      id: 'ardmoor-650-pathway',
      name: 'Ardmoor 650 Pathway',
      invented: true,
      problem: null,
      versions: 0,
      mark: 'clean',
    });
    for (const { id, problem } of machines) {
      expect(problem, id).toBeNull();
      const file = readFileSync(fileURLToPath(new URL(`../../machines/${id}.json`, import.meta.url)), 'utf8');
      expect((await garage.ask(`/api/machines/${id}`)).text).toBe(file);
    }
  });

  it.each(['nothing', '..%2fpackage', '..%2f..%2fetc%2fpasswd', '%00', 'Ardmoor-650-Pathway.json', '.'])(
    '%s is none',
    async (id) => {
      const answer = await garage.ask(`/api/machines/${id}`);
      expect(answer.status).not.toBe(200);
      expect(answer.text).not.toMatch(/"scripts"|root:/);
    },
  );
});
