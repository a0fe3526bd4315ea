import 'fake-indexeddb/auto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import { openBrowserStore } from '../../src/web/browser-store.ts';
import { openMemoryStore } from './memory-store.ts';
import { storeKeepsItsRules } from './store-contract.ts';

const folder = mkdtempSync(join(tmpdir(), 'chargewright-contract-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
let newest = '';

storeKeepsItsRules({ name: 'the store in memory', fresh: async () => openMemoryStore(), reopen: null });

storeKeepsItsRules({
  name: 'the SQLite store',
  fresh: async () => {
    count += 1;
    newest = join(folder, `${count}.sqlite`);
    return openSqliteStore(newest);
  },
  reopen: async (store) => {
    await store.close();
    return openSqliteStore(newest);
  },
});

storeKeepsItsRules({
  name: 'the store in the browser',
  fresh: async () => {
    count += 1;
    newest = `browser-${count}`;
    return openBrowserStore(newest);
  },
  reopen: async (store) => {
    await store.close();
    return openBrowserStore(newest);
  },
});
