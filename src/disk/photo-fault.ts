/** What is said where a photograph cannot be kept. */
import { explainFile, type FileWords, noRoom } from './files-fault.ts';

const WORDS: FileWords = {
  notKept: 'the photograph was not kept here and stays where it came from',
  again: 'it is sent again by itself',
  elsewhere: 'set CHARGEWRIGHT_PHOTOS to',
};

/** One sentence with place and remedy; anything that is not the file system's comes back as it is. */
export const explainPhoto = (folder: string, error: unknown): unknown => explainFile(folder, error, WORDS);

/** Sentence for a disk that is nearly full. */
export const noRoomForPhoto = (folder: string): string => noRoom(folder, WORDS);
