/**
 * Room `cli`: the commands. Each is one file that turns words and files into the text it prints; this file is the program
 * itself, the one edge where it meets the process: its words, its streams, its exit code.
 */
import { call } from './call.ts';

const UNPRINTED: Readonly<Record<string, string>> = {
  ENOSPC: 'there is no room left on its disk',
  EDQUOT: 'this user may write no more there',
  EFBIG: 'its disk takes no file of that size',
  EIO: 'its disk reports a fault',
};

// A reader that has gone away ("| head") is no fault: stop quietly.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  const reason = UNPRINTED[error.code ?? ''] ?? `it cannot be written (${error.message})`;
  process.stderr.write(
    `Not all of the answer is in the file it was sent to: ${reason}. Send it elsewhere.\n`,
  );
  process.exit(2);
});

const code = await call(process.argv.slice(2), {
  input: process.stdin,
  print: (text) =>
    new Promise((resolve) => {
      process.stdout.write(text, () => resolve());
    }),
  complain: (sentence) => process.stderr.write(`${sentence}\n`),
});
// A command that has printed its answer may have set one itself (`check`).
process.exitCode = code || (process.exitCode ?? 0);
