/**
 * A disk of a few megabytes that is really there: it fills, and it turns read-only while something writes to it. Mounting
 * needs root; where this user may not, `null`, and the test is named as not run. An ext4 in a file is told to be faulty by
 * the kernel's own switch (trigger_fs_error, Documentation/ABI/testing/sysfs-fs-ext4, from memory) and then turns
 * read-only by its mount option `errors=remount-ro`, as one does whose drive goes bad.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, statfsSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';

export interface SmallDisk {
  readonly folder: string;
  /** Leaves no room on it. */
  readonly fill: () => void;
  /** Gives the room back. */
  readonly free: () => void;
  readonly end: () => void;
}

export interface FailingDisk extends SmallDisk {
  /** It turns read-only under whoever writes. */
  readonly fail: () => void;
  /** It is taken out and put in again, sound. Nobody may use it meanwhile. */
  readonly mend: () => void;
}

/**
 * Blocks as on any disk of this century. So small a one would get blocks of 1 kB, less than a page of memory: SQLite, which
 * asks for a byte of each page, then gets a quarter of it, and the kernel ends the program when it touches the rest.
 */
const BLOCKS = ['-b', '4096'];

const ask = (program: string, ...args: string[]) => spawnSync(program, args, { encoding: 'utf8' });
const may = process.platform === 'linux' && process.getuid?.() === 0;

/** A disk in memory; null where this user may not mount. */
export function openSmallDisk(megabytes: number): SmallDisk | null {
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-small-'));
  const made = may && ask('mount', '-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder).status === 0;
  if (!made) {
    rmSync(folder, { recursive: true });
    return null;
  }
  mounted.add(folder);
  return { folder, ...filling(folder), end: () => endOf(folder) };
}

/** A disk in a file; null where this user may not mount, or the kernel has no switch to make one fail. */
export function openFailingDisk(megabytes: number): FailingDisk | null {
  const home = mkdtempSync(join(tmpdir(), 'chargewright-failing-'));
  const [image, folder] = [join(home, 'image'), join(home, 'disk')];
  writeFileSync(image, '');
  truncateSync(image, megabytes * 1e6);
  mkdirSync(folder);
  const mount = () => ask('mount', '-o', 'loop,errors=remount-ro', image, folder).status === 0;
  const made = may && ask('mkfs.ext4', ...BLOCKS, '-q', '-F', '-m', '0', image).status === 0 && mount();
  const device = () => basename((ask('losetup', '-j', image).stdout ?? '').split(':')[0] ?? '');
  const alarm = () => `/sys/fs/ext4/${device()}/trigger_fs_error`;
  if (made) mounted.add(folder);
  if (!made || !existsSync(alarm())) {
    if (made) endOf(folder);
    rmSync(home, { recursive: true });
    return null;
  }
  return {
    folder,
    ...filling(folder),
    fail: () => writeFileSync(alarm(), 'a test'),
    mend: () => {
      ask('umount', folder);
      ask('e2fsck', '-p', '-f', image);
      if (!mount()) throw new Error(`${image} cannot be mounted again`);
    },
    end: () => {
      endOf(folder);
      rmSync(home, { recursive: true });
    },
  };
}

function filling(folder: string): Pick<SmallDisk, 'fill' | 'free'> {
  const ballast = join(folder, 'ballast');
  return {
    fill: () => {
      // Ever smaller pieces, until not one byte more goes in.
      for (let size = 1 << 20; size >= 1; size = Math.floor(size / 4)) {
        try {
          for (;;) writeFileSync(ballast, Buffer.alloc(size), { flag: 'a' });
        } catch (error) {
          if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
        }
      }
    },
    free: () => rmSync(ballast, { force: true }),
  };
}

/** Room left, bytes. */
export function roomOn({ folder }: SmallDisk): number {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
}

const mounted = new Set<string>();
// Also where a test was cut off: what is mounted outlives its process.
process.on('exit', () => {
  for (const folder of mounted) endOf(folder);
});

function endOf(folder: string): void {
  if (!mounted.delete(folder)) return;
  ask('umount', '-l', folder);
  rmSync(folder, { recursive: true, force: true });
}
