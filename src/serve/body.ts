/** Reads a JSON body within its limits, or says in one sentence what is wrong with it. */
import type { Context } from 'hono';

/** Longest body, bytes. */
export const BODY_LIMIT = 1_000_000;

export type BodyRead =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly status: 400 | 413 | 415; readonly why: string };

const TOO_LONG = 'The body is over 1 MB; nothing of it was kept. Send the events in smaller lists.';

/** Never throws on any body; a connection that breaks off mid-body is thrown. */
export async function readBody(c: Context): Promise<BodyRead> {
  const type = c.req.header('content-type') ?? '';
  if (!/^application\/json\s*(?:;|$)/i.test(type.trim())) {
    return {
      ok: false,
      status: 415,
      why: 'The body must be JSON: send the header "content-type: application/json".',
    };
  }
  if (Number(c.req.header('content-length') ?? 0) > BODY_LIMIT)
    return { ok: false, status: 413, why: TOO_LONG };
  const bytes = await readBytes(c.req.raw.body, BODY_LIMIT);
  if (bytes === null) return { ok: false, status: 413, why: TOO_LONG };
  try {
    return {
      ok: true,
      value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown,
    };
  } catch {
    const why =
      'The body is not JSON, or was cut off; nothing of it was kept. Send a list of events, as in [{"id": "…", "type": "noteAdded", …}].';
    return { ok: false, status: 400, why };
  }
}

/** The whole body; null as soon as it turns out longer than the limit, bytes, whatever its header said. */
export async function readBytes(
  body: ReadableStream<Uint8Array> | null,
  limit: number,
): Promise<Uint8Array | null> {
  if (!body) return new Uint8Array(0);
  const parts: Uint8Array[] = [];
  let length = 0;
  const reader = body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > limit) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
