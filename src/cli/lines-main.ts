/** Line mode as a program: JSON lines on standard input, answers on standard output and nothing else there. */
import { createInterface } from 'node:readline';
import { runLines } from '../cases/lines.ts';

// A reader that has gone away ("| head") is no fault: stop quietly.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

const input = createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
await runLines(input, (text) => {
  if (process.stdout.write(text)) return;
  return new Promise<void>((resolve) => {
    process.stdout.once('drain', resolve);
  });
});
