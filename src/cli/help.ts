/** The help pages. */
import type { Command } from './command.ts';
import { wrap } from './table.ts';

export const PROGRAM = 'chargewright';

/** Help of the whole program. */
export function writeHelp(commands: readonly Command[]): string {
  const widest = Math.max(...commands.map(({ name }) => name.length));
  const list = commands.map(({ name, about }) => `  ${name.padEnd(widest)}  ${about}`);
  const examples = commands.map(
    ({ name, example }) => `  ${name.padEnd(widest)}  ${PROGRAM} ${example.line}`,
  );
  return [
    `${PROGRAM}: takes a motorcycle that will not stay charged from complaint to proof.`,
    '',
    `  ${PROGRAM} COMMAND …`,
    `  ${PROGRAM} COMMAND --help`,
    '',
    'Commands:',
    ...list,
    '',
    'An example of each:',
    ...examples,
    '',
    wrap(
      'MACHINE is a machine file, such as those in machines/; - reads standard input. Input that cannot be used is answered on standard error in one sentence with its place and remedy, exit code 2, and nothing on standard output.',
      0,
    ),
    '',
  ].join('\n');
}

/** Help of one command. */
export function writeCommandHelp(command: Command): string {
  const { name, about, takes, more, options, example } = command;
  const shown = options.map(
    (option) => `${option.name}${option.value === undefined ? '' : ` ${option.value}`}`,
  );
  const widest = Math.min(30, Math.max(0, ...shown.map((one) => one.length)));
  const lines = [
    `${about}.`,
    '',
    `  ${PROGRAM} ${name} ${takes}`.trimEnd() + (options.length > 0 ? ' [options]' : ''),
    '',
  ];
  for (const paragraph of more) lines.push(wrap(paragraph, 0), '');
  if (options.length > 0) {
    lines.push('Options:');
    options.forEach((option, n) => {
      const many = option.many ? '; may be repeated' : '';
      const [first, ...rest] = wrap(`${option.about}${many}`, widest + 4).split('\n');
      const head = `  ${shown[n]!.padEnd(widest)}`;
      if (shown[n]!.length > widest) lines.push(head, first!, ...rest);
      else lines.push(`${head}  ${first!.trim()}`, ...rest);
    });
    lines.push('');
  }
  lines.push('Example:', `  ${PROGRAM} ${example.line}`, `  shows ${example.shows}`, '');
  return lines.join('\n');
}
