import { beforeAll, describe, expect, it } from 'vitest';
import { SQUARE } from '../job/pictures.ts';
import { ensureBuilt } from './built.ts';
import { killPhotoWriters } from './kill-photos.mjs';

beforeAll(() => ensureBuilt('disk', ['job', 'log']), 120_000);

const KILLS = Number(process.env.KILLS ?? 6);

describe('SPEC 20: kill -9 while photographs are written', { timeout: 60_000 + 2000 * KILLS }, () => {
  it('loses none that was answered, leaves none by half, and the next start clears the drafts away', async () => {
    const result = await killPhotoWriters({ rounds: KILLS, square: SQUARE });
    const { answered, kept, lost, torn, drafts, left } = result;
    console.log(
      `${KILLS} kills: ${answered} photographs answered, ${kept} kept, ${drafts} drafts left by the kills`,
    );
    expect(answered).toBeGreaterThan(KILLS);
    expect(kept).toBeGreaterThanOrEqual(answered);
    expect([lost, torn, left]).toEqual([[], [], []]);
  });

  it('would find half a picture: a writer that writes straight to the name is caught', async () => {
    const { torn } = await killPhotoWriters({ rounds: 5, square: SQUARE, manner: 'torn', seed: 7 });
    expect(torn.length).toBeGreaterThan(0);
  });
});
