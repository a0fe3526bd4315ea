/** Turns what the file system threw at a photograph into one sentence with place and remedy. */
import { StoreFault } from './fault.ts';

const NOT_KEPT = 'the photograph was not kept here and stays where it came from';

/** Anything that is not the file system's comes back as it is. */
export function explainPhoto(folder: string, error: unknown): unknown {
  if (error instanceof StoreFault || !(error instanceof Error)) return error;
  const text = sentence(folder, (error as NodeJS.ErrnoException).code ?? '');
  return text === null ? error : new StoreFault(folder, text, error);
}

/** Sentence for a disk that is nearly full. */
export function noRoom(folder: string): string {
  return `There is too little room left on the disk that holds ${folder}; ${NOT_KEPT}. Free some space there: it is sent again by itself.`;
}

function sentence(folder: string, code: string): string | null {
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return noRoom(folder);
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return `The folder ${folder} cannot be read and written by this user; ${NOT_KEPT}. Allow that, or set CHARGEWRIGHT_PHOTOS to a folder of your own.`;
    case 'ENOENT':
      return `The folder for photographs ${folder} does not exist and cannot be made; ${NOT_KEPT}. Plug in the drive it is on, or set CHARGEWRIGHT_PHOTOS to another folder.`;
    case 'ENOTDIR':
    case 'EEXIST':
    case 'EISDIR':
      return `A file and a folder are in each other's way in ${folder}; ${NOT_KEPT}. Move away what Chargewright did not write there, or set CHARGEWRIGHT_PHOTOS to another folder.`;
    case 'EIO':
      return `The disk that holds ${folder} reports a fault; ${NOT_KEPT}. Copy the folder to another disk and set CHARGEWRIGHT_PHOTOS to it.`;
    case 'EMFILE':
    case 'ENFILE':
      return `This computer has too many files open; ${NOT_KEPT}. Close other programs: it is sent again by itself.`;
    default:
      return null;
  }
}
