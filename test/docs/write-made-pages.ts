/** Writes the pages of docs that are made from the program: `npm run docs`. */
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { madePages } from './made-pages.ts';

const root = process.cwd();
const pages = madePages(root);
const folder = join(root, 'docs/readings');
mkdirSync(folder, { recursive: true });
for (const name of readdirSync(folder)) if (!pages.has(`docs/readings/${name}`)) rmSync(join(folder, name));
for (const [path, text] of pages) writeFileSync(join(root, path), text);
process.stdout.write(`${pages.size} files written under docs.\n`);
