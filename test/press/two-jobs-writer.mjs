/**
 * Writes batches over two jobs at once into a store until it is told to stop: what an import does, and what a backup must
 * not tear. Arguments: module of the store, module of the stamps, file. Says a dot for each batch that was answered.
 */
import { writeSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const [storeModule, stampModule, file] = process.argv.slice(2);
const { openSqliteStore } = await import(pathToFileURL(storeModule).href);
const { writeEvent } = await import(pathToFileURL(stampModule).href);

const store = openSqliteStore(file);
let last = null;
let over = false;
process.on('SIGTERM', () => {
  over = true;
});
for (let batch = 0; !over; batch += 1) {
  const events = [];
  for (const job of ['left', 'right'])
    for (let n = 0; n < 10; n += 1) {
      const body =
        batch === 0 && n === 0
          ? { type: 'jobOpened', machine: 'm1', title: job, invented: true }
          : { type: 'noteAdded', text: `batch ${batch}` };
      const event = writeEvent({ job, who: 'writer', device: 'writer' }, body, last, Date.now());
      last = event.id;
      events.push(event);
    }
  const answer = await store.append(events);
  if (!answer.ok) throw new Error(answer.why);
  writeSync(1, '.');
  // Gives way, so that a signal is heard.
  await new Promise((done) => setImmediate(done));
}
await store.close();
