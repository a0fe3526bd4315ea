/** The machine files of this computer, as the press needs them: whoever knows where they lie lends them. */

export interface MachineShelf {
  /** Text of a shipped one; null when there is none of that name. */
  readonly shipped: (id: string) => Promise<string | null>;
  /** Those written here. */
  readonly ids: () => Promise<readonly string[]>;
  /** Numbers of the versions of one, ascending. */
  readonly versions: (id: string) => Promise<readonly number[]>;
  /** The newest text of one written here, or that of a version; null when there is none. */
  readonly text: (id: string, version?: number) => Promise<string | null>;
  /** Keeps a text as the next version. */
  readonly save: (
    id: string,
    text: string,
  ) => Promise<{ readonly ok: true } | { readonly ok: false; readonly why: string }>;
}

/** Texts of every version of one written here, oldest first. */
export async function textsOf(shelf: MachineShelf, id: string): Promise<readonly string[]> {
  const texts: string[] = [];
  for (const version of await shelf.versions(id)) texts.push((await shelf.text(id, version)) ?? '');
  return texts;
}
