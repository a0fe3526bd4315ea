/** What is wrong with a machine file, where, and what to do about it: the one shape every check reports in. */

/** One thing wrong with a file. `line` and `column` count from 1; `path` is a JSON path such as `$.charging.fuse.is`. */
export interface Problem {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly path: string;
  /** What is wrong, one clause without a full stop. */
  readonly what: string;
  /** What to do about it, one sentence without a full stop. */
  readonly fix: string;
}

/** A place in a text. Both count from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** One problem as one line a person can act on: file, line, path, what, fix. */
export function writeProblem(problem: Problem): string {
  const { file, line, path, what, fix } = problem;
  return `${file}, line ${line}, ${path}: ${what}. ${fix}.`;
}

/** Path of a member of an object: `.name` where the name allows it, `["na me"]` otherwise (as RFC 9535 does). */
export function memberPath(path: string, key: string): string {
  return /^[A-Za-z_$][\w$]*$/.test(key) ? `${path}.${key}` : `${path}[${JSON.stringify(key)}]`;
}

/** Shortens a text for quoting in a message. */
export function quote(text: string): string {
  const short = text.length > 60 ? `${text.slice(0, 57)}…` : text;
  return JSON.stringify(short);
}
