/** Reads a file of practice cases: one JSON object a line. */
import { faultOfName, repairOfName } from './exchange.ts';
import { type Fields, objectAt, shown, wordsAt } from './field.ts';
import type { PracticeCase } from './player.ts';

/** The cases of a text; a RangeError with one sentence that names the line where one is not a case. Blank lines are passed over. */
export function readCases(text: string): PracticeCase[] {
  const cases: PracticeCase[] = [];
  text.split('\n').forEach((line, index) => {
    if (line.trim() === '') return;
    const where = `line ${index + 1}`;
    let parsed: unknown;
    try {
      parsed = JSON.parse(line);
    } catch (error) {
      throw new RangeError(
        `${where} is not JSON (${(error as Error).message}); a case is one whole object a line.`,
      );
    }
    cases.push(caseAt(objectAt(parsed, where), where));
  });
  if (cases.length === 0) throw new RangeError('the file has no cases; a case is one JSON object a line.');
  return cases;
}

function caseAt(fields: Fields, where: string): PracticeCase {
  if (typeof fields.id !== 'string')
    throw new RangeError(`${where}: id must be a text, got ${shown(fields.id)}.`);
  const truth = objectAt(fields.truth, `${where}: truth`);
  for (const [field, known] of [
    ['faults', faultOfName],
    ['masked', faultOfName],
    ['repairs', repairOfName],
  ] as const) {
    for (const name of wordsAt(truth[field], `${where}: truth.${field}`)) {
      if (known(name) === null)
        throw new RangeError(`${where}: truth.${field} has the unknown name ${shown(name)}.`);
    }
    if (truth[field] === undefined)
      throw new RangeError(`${where}: truth.${field} is missing; write [] for none.`);
  }
  for (const [key, entry] of Object.entries(objectAt(fields.readings, `${where}: readings`))) {
    if (!Array.isArray(entry) || entry.length !== 2 || typeof entry[1] !== 'number') {
      throw new RangeError(
        `${where}: readings[${shown(key)}] must be [value, minutes], got ${shown(entry)}.`,
      );
    }
  }
  return fields as unknown as PracticeCase;
}
