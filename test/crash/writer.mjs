/**
 * Writes batches of events into a store and says on stdout which were answered, until it is killed.
 * Arguments: module of the store, module of the stamps, file, round, `honest` or `early`. `early` says so before the store has answered:
 * a writer that must be caught, to show that the count can find a loss.
 */
import { writeSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const [storeModule, stampModule, file, round, manner] = process.argv.slice(2);
const { openSqliteStore } = await import(pathToFileURL(storeModule).href);
const { writeEvent } = await import(pathToFileURL(stampModule).href);

const store = openSqliteStore(file);
const who = { job: 'crash', who: 'writer', device: `round${round}` };
let last = null;
for (let batch = 0; ; batch += 1) {
  const size = 1 + (batch % 5);
  const events = [];
  for (let n = 0; n < size; n += 1) {
    const event = writeEvent(
      who,
      { type: 'noteAdded', text: `${round}/${batch} ${n + 1} of ${size}` },
      last,
      Date.now(),
    );
    last = event.id;
    events.push(event);
  }
  const say = () => writeSync(1, `${events.map((event) => event.id).join(' ')}\n`);
  if (manner === 'early') {
    say();
    await new Promise((done) => setTimeout(done, 15));
  }
  const answer = await store.append(events);
  if (!answer.ok) throw new Error(answer.why);
  if (manner !== 'early') say();
}
