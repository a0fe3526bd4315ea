/** A reading of the log in words; as it stands where this version does not know it. */
import type { JobState } from '../job/fold.ts';
import { checkKey, KINDS } from '../reading/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import { showValue } from '../reading/say-value.ts';

type Taken = Pick<JobState['readings'][number], 'key' | 'value' | 'entered'>;

export function readingName(key: string): string {
  const checked = checkKey(key);
  return checked.ok ? describeReading(checked.key) : `${key} (unknown to this version)`;
}

/** The value, with what was typed where that reads otherwise. */
export function readingValue({ key, value, entered }: Taken): string {
  const checked = checkKey(key);
  const kind = checked.ok ? KINDS[checked.key.kind] : undefined;
  const shown = kind ? showValue(value, kind.unit) : value === null ? 'no reading' : String(value);
  const plain = entered.trim();
  // A figure that was typed with another comma or one nought more is the same figure.
  const typed = Number.parseFloat(plain.replace(',', '.'));
  return typeof value === 'number' && plain !== '' && Math.abs(typed - value) > 1e-9 * Math.abs(value)
    ? `${shown} (typed: ${plain})`
    : shown;
}
