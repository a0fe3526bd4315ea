/** One laptop and one browser for all tests of a file. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { type Laptop, openChromium, openLaptop } from './served-app.ts';

/** Opens both before the file's tests and closes them after; to be called inside a `describe`. */
export function useApp(): { readonly laptop: Laptop; readonly browser: Browser } {
  const app: { laptop?: Laptop; browser?: Browser } = {};
  beforeAll(async () => {
    app.laptop = await openLaptop();
    app.browser = await openChromium();
  }, 180_000);
  afterAll(async () => {
    await app.browser?.close();
    await app.laptop?.end();
  });
  return app as { laptop: Laptop; browser: Browser };
}
