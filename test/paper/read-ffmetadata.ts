/**
 * ffmetadata read by its documented grammar, ffmpeg-formats, "Metadata": a header, comments from `;` or `#`, sections in
 * brackets on a line of their own, `key=value`; `=`, `;`, `#`, `\` and a new line belong to key or value with a backslash
 * before them.
 */
export interface ReadChapter {
  readonly start: number;
  readonly end: number;
  readonly title: string | undefined;
}

export function readFfmetadata(text: string): {
  readonly global: ReadonlyMap<string, string>;
  readonly chapters: readonly ReadChapter[];
} {
  const lines = logicalLines(text);
  if (lines.shift() !== ';FFMETADATA1') throw new Error('no header');
  const global = new Map<string, string>();
  const chapters: Map<string, string>[] = [];
  let into = global;
  for (const line of lines) {
    if (line === '' || /^[;#]/.test(line)) continue;
    if (/^\[.*\]$/s.test(line)) {
      into = new Map();
      if (line === '[CHAPTER]') chapters.push(into);
      continue;
    }
    const [, key, value] = /^((?:\\[\s\S]|[^\\=])*)=([\s\S]*)$/.exec(line) ?? [];
    if (key === undefined || value === undefined) throw new Error(`no key=value: ${line}`);
    if (/(?<!\\)(?:\\\\)*[=;#]/.test(value)) throw new Error(`a sign without its backslash: ${line}`);
    into.set(plain(key), plain(value));
  }
  return {
    global,
    chapters: chapters.map((of) => {
      const [num, den] = (of.get('TIMEBASE') ?? '1/1000000000').split('/').map(Number);
      const ms = (name: string) => (Number(of.get(name)) * num! * 1000) / den!;
      return { start: ms('START'), end: ms('END'), title: of.get('title') };
    }),
  };
}

/** Lines, of which one with a backslash before its new line goes on. */
function logicalLines(text: string): string[] {
  return [...text.matchAll(/((?:\\[\s\S]|[^\\\n])*)(?:\n|$)/g)].map(([, line]) => line!);
}

function plain(text: string): string {
  return text.replace(/\\([\s\S])/g, '$1');
}
