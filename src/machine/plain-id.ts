/** Ids made from names: small letters, digits and single hyphens, as the machine file wants them. */

/** Longest id of an entry of the file, characters. */
export const LONGEST_ID = 40;

/** A name as an id of at most `longest` characters; '' where nothing of it is left. */
export function plainId(name: string, longest = LONGEST_ID): string {
  return name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+/, '')
    .slice(0, longest)
    .replace(/-+$/, '');
}

/** An id of an entry from its name, unlike those that are taken; `otherwise` where the name leaves none. It starts with a letter. */
export function freshId(name: string, taken: ReadonlySet<string>, otherwise = 'entry'): string {
  const plain = plainId(name, 200).replace(/^[-0-9]+/, '');
  const start = plain === '' ? otherwise : plain;
  for (let n = 1; ; n++) {
    const end = n === 1 ? '' : `-${n}`;
    const id = `${start.slice(0, LONGEST_ID - end.length).replace(/-+$/, '')}${end}`;
    if (!taken.has(id)) return id;
  }
}
