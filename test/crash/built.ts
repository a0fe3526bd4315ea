import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const at = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/**
 * Tests that start processes of their own need the compiled rooms: builds `room` and those it leans on where they are
 * missing or older than their sources.
 */
export function ensureBuilt(room: string, leansOn: readonly string[]): void {
  const stale = [room, ...leansOn].some((name) => {
    const stamp = at(`dist/${name}/.tsbuildinfo`);
    if (!existsSync(stamp)) return true;
    const built = statSync(stamp).mtimeMs;
    const sources = readdirSync(at(`src/${name}`), { recursive: true, encoding: 'utf8' }).filter((file) =>
      file.endsWith('.ts'),
    );
    return sources.some((file) => statSync(at(`src/${name}/${file}`)).mtimeMs > built);
  });
  if (!stale) return;
  try {
    execFileSync(process.execPath, [at('node_modules/typescript/bin/tsc'), '-b', at(`src/${room}`)], {
      stdio: 'pipe',
    });
  } catch (error) {
    // Another room that does not compile is another test's business, as long as this one was built.
    if (!existsSync(at(`dist/${room}/.tsbuildinfo`))) throw error;
  }
}
