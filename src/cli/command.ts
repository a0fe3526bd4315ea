/** What a command is: its words for the help page, its options, and what it does with them. */
import type { Readable } from 'node:stream';
import type { Given } from './options.ts';

export interface Option {
  /** With its dashes: `--rpm`. */
  readonly name: string;
  /** What follows it, as shown in the help; absent for a switch. */
  readonly value?: string;
  /** Whether it may be given several times. */
  readonly many?: boolean;
  readonly about: string;
}

/** What a command reads from the world. */
export interface World {
  /** Text of a file, or of standard input for `-`. Throws a Refusal that names it. */
  readonly read: (name: string) => Promise<string>;
  /** Bytes of a file, or of standard input for `-`; throws a Refusal when there are more than `most`. */
  readonly bytes: (name: string, most: number) => Promise<Uint8Array>;
  /** Standard input, for what answers line by line. */
  readonly input: Readable;
  /** Prints before the command has ended; waits while the reader is slow. */
  readonly print: (text: string) => Promise<void>;
}

export interface Command {
  readonly name: string;
  /** One line, imperative. */
  readonly about: string;
  /** What follows the name. */
  readonly takes: string;
  /** A paragraph or two. */
  readonly more: readonly string[];
  readonly options: readonly Option[];
  /** A line that works in a fresh clone, without the program's name, and what it shows. */
  readonly example: { readonly line: string; readonly shows: string };
  /** Fewest and most words that are no options. */
  readonly words: readonly [number, number];
  /** Returns the whole of what goes to standard output. */
  readonly run: (given: Given, world: World) => Promise<string>;
}
