/** How the check marks a machine file, and how bad a finding is, each with a sign and words. */
import type { Level } from '../../machine/finding.ts';
import type { Mark } from '../../machine/judge-file.ts';

export const MARK_WORDS: Readonly<Record<Mark, string>> = {
  broken: '✕ does not read: no job can be opened on it',
  impossible: '▲ has a figure that cannot be right',
  danger: '▲ has a figure that would break or lose something',
  doubt: '◇ has something to look at again',
  clean: '● no slip found in this file',
};

export const LEVEL_WORDS: Readonly<Record<Level, string>> = {
  impossible: '▲ Cannot be',
  danger: '▲ Danger',
  doubt: '◇ Look again',
  hint: '· Worth knowing',
};
