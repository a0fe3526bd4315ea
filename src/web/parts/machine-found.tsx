import type { JSX } from 'preact';
import { readPath } from '../../machine/json-value.ts';
import { MACHINE_PARTS, type MachinePart } from '../route.ts';
import { file, judged } from '../state/machine-draft.ts';
import { go } from '../state/place.ts';
import { LEVEL_WORDS } from '../words/marks.ts';
import { Press } from './press-button.tsx';

/** How many are shown at once: a broken file can have hundreds, and the first is the one to mend. */
const SHOWN = 40;

/** The page on which a place of the file is entered; the text where no form has it. */
export function partOf(path: string): MachinePart {
  const first = readPath(path)?.[0];
  return MACHINE_PARTS.find((name) => name === first) ?? 'text';
}

/** What the check finds, worst first, each with the way to its field; `jump` where the lines of a text are gone to instead. */
export function MachineFound(props: {
  readonly jump?: (line: number, column: number) => void;
}): JSX.Element | null {
  const now = judged.value;
  const id = file.value?.id;
  if (now === null || id === undefined) return null;
  const { problems, findings } = now;
  if (problems.length + findings.length === 0) return <p>Nothing to say about this file.</p>;
  const to = (path: string, line: number, column: number): void => {
    if (props.jump) props.jump(line, column);
    else go({ at: 'machine', machine: id, part: partOf(path), field: path });
  };
  return (
    <>
      {problems.length > 0 && <h2>What does not read</h2>}
      <ul class="findings">
        {problems.slice(0, SHOWN).map(({ line, column, path, what, fix }) => (
          <li key={`${line} ${column} ${what}`}>
            <Press class="plain" act={() => to(path, line, column)}>
              {props.jump ? `Line ${line}` : 'Go there'}
            </Press>
            <p>
              {what}. {fix}
            </p>
          </li>
        ))}
      </ul>
      {findings.length > 0 && <h2>What to look at</h2>}
      <ul class="findings">
        {findings.slice(0, SHOWN).map(({ level, line, column, path, what, why, lookUp }) => (
          <li key={`${path} ${what}`}>
            <Press class="plain" act={() => to(path, line, column)}>
              {LEVEL_WORDS[level]}
              {props.jump ? `, line ${line}` : ''}
            </Press>
            <p>
              <strong>{what}</strong>. {why}. {lookUp}.
            </p>
          </li>
        ))}
      </ul>
      {problems.length + findings.length > SHOWN && (
        <p>More stand behind these; mend the first ones first.</p>
      )}
    </>
  );
}
