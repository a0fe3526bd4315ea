/** Where the package lies: the nearest folder upwards that has a package.json, also from where a bench was bundled. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

function upwards(from: string): string {
  return existsSync(join(from, 'package.json')) ? from : upwards(dirname(from));
}

export const PACKAGE = upwards(dirname(fileURLToPath(import.meta.url)));
