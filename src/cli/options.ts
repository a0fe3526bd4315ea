/** Takes the words after a command apart into options and plain words. */
import { nearest } from '../machine/nearest.ts';
import type { Command } from './command.ts';
import { Refusal } from './refusal.ts';

/** What was given to a command. */
export interface Given {
  readonly words: readonly string[];
  /** The last value of an option; null when it was not given. */
  readonly one: (name: string) => string | null;
  /** Every value of an option that may be given several times. */
  readonly all: (name: string) => readonly string[];
  readonly has: (name: string) => boolean;
}

/** Reads the arguments of a command. `--name value` and `--name=value` are the same; after `--` all are words. */
export function readOptions(command: Command, args: readonly string[]): Given {
  const values = new Map<string, string[]>();
  const words: string[] = [];
  const help = `see "chargewright ${command.name} --help"`;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    if (arg === '--') {
      words.push(...args.slice(i + 1));
      break;
    }
    if (!arg.startsWith('--')) {
      if (arg !== '-' && /^-[a-zA-Z]/.test(arg))
        throw new Refusal(
          `${arg} is no option of "${command.name}": options are written with two dashes, ${help}.`,
        );
      words.push(arg);
      continue;
    }
    const at = arg.indexOf('=');
    const name = at < 0 ? arg : arg.slice(0, at);
    const option = command.options.find((one) => one.name === name);
    if (!option) {
      const near = nearest(
        name,
        command.options.map((one) => one.name),
      );
      throw new Refusal(
        `${name} is no option of "${command.name}": ${near === null ? help : `did you mean ${near}? Otherwise ${help}`}.`,
      );
    }
    if (option.value === undefined && at >= 0)
      throw new Refusal(`${name} takes no value: write it alone, ${help}.`);
    let value = at < 0 ? '' : arg.slice(at + 1);
    if (option.value !== undefined && at < 0) {
      const next = args[++i];
      if (next === undefined) throw new Refusal(`${name} wants ${option.value} after it, ${help}.`);
      value = next;
    }
    const known = values.get(name);
    if (known && !option.many) throw new Refusal(`${name} is given twice: give it once.`);
    if (known) known.push(value);
    else values.set(name, [value]);
  }
  const [fewest, most] = command.words;
  if (words.length < fewest)
    throw new Refusal(`"${command.name}" wants ${command.takes.trim()} after it, ${help}.`);
  if (words.length > most) {
    throw new Refusal(
      `"${words[most]}" is one word too many for "${command.name}": put words with spaces in quotes, ${help}.`,
    );
  }
  return {
    words,
    one: (name) => values.get(name)?.at(-1) ?? null,
    all: (name) => values.get(name) ?? [],
    has: (name) => values.has(name),
  };
}

/** One of a few words given as an option, with a default. */
export function oneOf<const W extends string>(
  given: Given,
  name: string,
  words: readonly W[],
  otherwise: W,
): W {
  const text = given.one(name);
  if (text === null) return otherwise;
  const found = words.find((word) => word === text);
  if (found === undefined) throw new Refusal(`${name} may be ${words.join(', ')}, not "${text}".`);
  return found;
}

/** A number given as an option, in the unit named by `unit`. From `low` to `high`; the unit may stand behind it. */
export function numberOf(
  given: Given,
  name: string,
  low: number,
  high: number,
  unit: string,
  otherwise: number,
): number {
  const text = given.one(name);
  if (text === null) return otherwise;
  const plain =
    text.trim().endsWith(unit) && unit !== '' ? text.trim().slice(0, -unit.length).trim() : text.trim();
  const value = /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
  if (value >= low && value <= high) return value;
  throw new Refusal(
    `${name} may be a number from ${low} to ${high}${unit === '' ? '' : ` ${unit}`}, not "${text}".`,
  );
}

/** Refuses two options that cannot go together; returns the one given, or null. */
export function either(given: Given, ...names: readonly string[]): string | null {
  const found = names.filter((name) => given.has(name));
  if (found.length > 1) throw new Refusal(`${found.join(' and ')} cannot go together: choose one.`);
  return found[0] ?? null;
}
