/** The routes by which a machine file leaves and comes in: its pack, what one from outside is, and when each version was saved. */
import type { Context } from 'hono';
import { packMachine } from '../press/machine-pack.ts';
import type { MachineShelf } from '../press/machine-shelf.ts';
import { proposeMachine } from '../press/propose-machine.ts';
import { MACHINE_PACK_LIMITS, readMachineFile } from '../press/read-machine-file.ts';
import { readBytes } from './body.ts';

const ID = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/;
const TYPES = ['application/zip', 'application/octet-stream', 'application/json'] as const;

/** GET: the pack of a machine file as it stands now. */
export async function givePack(c: Context, id: string, text: string | null): Promise<Response> {
  if (text === null)
    return c.json({ error: 'There is no such machine here; the list of machines is at /api/machines.' }, 404);
  const packed = packMachine(text, `${id}.json`);
  if (!packed.ok) return c.json({ error: packed.why }, 409);
  return c.body(new Uint8Array(packed.bytes), 200, {
    'content-type': 'application/zip',
    'content-disposition': `attachment; filename="${id}.zip"`,
  });
}

/** POST: says what a machine file from outside is; nothing is kept by that. `?as=` asks for an id of one's own. */
export async function lookAtMachine(c: Context, shelf: MachineShelf): Promise<Response> {
  const type = (c.req.header('content-type') ?? '').split(';')[0]!.trim().toLowerCase();
  if (!(TYPES as readonly string[]).includes(type))
    return c.json(
      { error: `A machine file is sent as application/json, its pack as application/zip; nothing was kept.` },
      415,
    );
  const wanted = c.req.query('as') ?? null;
  if (wanted !== null && !ID.test(wanted))
    return c.json(
      {
        error:
          'A machine is named by small letters, figures and hyphens, such as my-bike; choose another name.',
        field: 'as',
      },
      400,
    );
  const tooLarge = {
    error: `The file is over ${MACHINE_PACK_LIMITS.zip / 1e6} MB, the most that a pack may be; nothing was kept.`,
  };
  if (Number(c.req.header('content-length') ?? 0) > MACHINE_PACK_LIMITS.zip) return c.json(tooLarge, 413);
  const bytes = await readBytes(c.req.raw.body, MACHINE_PACK_LIMITS.zip);
  if (bytes === null) return c.json(tooLarge, 413);
  const read = readMachineFile(bytes, 'The file', new Date().getFullYear());
  if (!read.ok) return c.json({ error: read.why }, 400);
  const { ok: _ok, ...file } = read;
  return c.json({ ...(await proposeMachine(read, shelf, wanted)), ...file });
}
