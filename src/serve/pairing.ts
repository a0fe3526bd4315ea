/** The routes of letting devices in: from this computer who may, and at the encrypted door the asking itself. */

import { getConnInfo } from '@hono/node-server/conninfo';
import type { Context, Hono } from 'hono';
import { getCookie, setCookie } from 'hono/cookie';
import { readBody } from './body.ts';
import { type Devices, MOST_NAME } from './devices.ts';
import { PortFault } from './listen.ts';
import type { Share } from './share.ts';

const COOKIE = '__Host-chargewright';
/** How long a device stays let in without coming back, s. */
const STAYS_S = 400 * 86_400;

/** Whether who asks carries the token of a device that was let in. */
export function isLetIn(c: Context, devices: Devices): boolean {
  return devices.of(getCookie(c, COOKIE)) !== null;
}

function text(value: unknown, name: string, most: number): string | null {
  if (typeof value !== 'object' || value === null) return null;
  const found = (value as Readonly<Record<string, unknown>>)[name];
  return typeof found === 'string' && found.length <= most ? found : null;
}

/** On this computer: see, invite, shut out, open and shut the door. */
export function addDeviceRoutes(app: Hono, devices: Devices, share: Share): void {
  const said = () => ({ devices: devices.list(), door: share.door() });
  app.get('/api/devices', (c) => c.json(said()));
  app.post('/api/devices/door', async (c) => {
    const body = await readBody(c);
    if (!body.ok) return c.json({ error: body.why }, body.status);
    const open = (body.value as { readonly open?: unknown } | null)?.open;
    if (typeof open !== 'boolean')
      return c.json({ error: 'Say whether the door is to be open: {"open": true} or {"open": false}.' }, 400);
    try {
      if (open) await share.open();
      else await share.shut();
    } catch (error) {
      if (error instanceof PortFault) return c.json({ error: error.message }, 503);
      throw error;
    }
    return c.json(said());
  });
  app.post('/api/devices/invite', (c) => {
    const door = share.door();
    if (!door) return c.json({ error: 'The door is shut: open it first.' }, 409);
    const { secret, until } = devices.invite();
    return c.json({ until, landings: door.landings.map((landing) => `${landing}#${secret}`) });
  });
  app.post('/api/devices/:id/out', async (c) => {
    const gone = await devices.revoke(c.req.param('id'));
    return gone ? c.json(said()) : c.json({ error: 'There is no such device.' }, 404);
  });
}

/** At the encrypted door: a device asks to be let in, or to leave. */
export function addPairRoute(app: Hono, devices: Devices): void {
  app.post('/api/pair', async (c) => {
    const body = await readBody(c);
    if (!body.ok) return c.json({ error: body.why }, body.status);
    const secret = text(body.value, 'secret', 64);
    const name = text(body.value, 'name', MOST_NAME);
    if (secret === null || name === null)
      return c.json(
        { error: `Pairing wants {"secret": "…", "name": "…"}, the name of at most ${MOST_NAME} letters.` },
        400,
      );
    const from = getConnInfo(c).remote.address ?? '';
    const answer = await devices.letIn(secret, name, from);
    if (!answer.ok) return c.json({ error: answer.why }, answer.status);
    setCookie(c, COOKIE, answer.token, {
      path: '/',
      httpOnly: true,
      secure: true,
      sameSite: 'Strict',
      maxAge: STAYS_S,
    });
    return c.json({ device: answer.device });
  });
}
