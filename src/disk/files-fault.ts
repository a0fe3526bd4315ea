/** Turns what the file system threw at a file beside the store into one sentence with place and remedy. */
import { StoreFault } from './fault.ts';

/** What to say of the file that was not kept. */
export interface FileWords {
  /** What became of it, as in "the photograph was not kept". */
  readonly notKept: string;
  /** What to do once the disk takes it again, with its verb and no full stop. */
  readonly again: string;
  /** Where else it could be kept, as in "set CHARGEWRIGHT_HOME to". */
  readonly elsewhere: string;
}

/** Anything that is not the file system's comes back as it is. */
export function explainFile(folder: string, error: unknown, words: FileWords): unknown {
  if (error instanceof StoreFault || !(error instanceof Error)) return error;
  const text = sentence(folder, (error as NodeJS.ErrnoException).code ?? '', words);
  return text === null ? error : new StoreFault(folder, text, error);
}

/** Sentence for a disk that is nearly full. */
export function noRoom(folder: string, { notKept, again }: FileWords): string {
  return `There is too little room left on the disk that holds ${folder}; ${notKept}. Free some space there: ${again}.`;
}

function sentence(folder: string, code: string, words: FileWords): string | null {
  const { notKept, again, elsewhere } = words;
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return noRoom(folder, words);
    case 'EFBIG':
      return `The disk that holds ${folder} takes no file of that size; ${notKept}. Use another disk: ${elsewhere} a folder there.`;
    case 'EROFS':
      return `The disk that holds ${folder} is read-only; ${notKept}. Make it writable again, or ${elsewhere} a folder of your own: ${again}.`;
    case 'EACCES':
    case 'EPERM':
      return `The folder ${folder} cannot be read and written by this user; ${notKept}. Allow that, or ${elsewhere} a folder of your own.`;
    case 'ENOENT':
      return `The folder ${folder} does not exist and cannot be made; ${notKept}. Plug in the drive it is on, or ${elsewhere} another folder.`;
    case 'ENOTDIR':
    case 'EEXIST':
    case 'EISDIR':
      return `A file and a folder are in each other's way in ${folder}; ${notKept}. Move away what Chargewright did not write there, or ${elsewhere} another folder.`;
    case 'EIO':
      return `The disk that holds ${folder} reports a fault; ${notKept}. Copy the folder to another disk and ${elsewhere} it.`;
    case 'EMFILE':
    case 'ENFILE':
      return `This computer has too many files open; ${notKept}. Close other programs: ${again}.`;
    default:
      return null;
  }
}
