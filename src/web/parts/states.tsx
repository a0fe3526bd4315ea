import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { type Chosen, valuesOf, withState } from '../keys.ts';
import { capital } from '../show.ts';
import { machine } from '../state/machine.ts';
import { offer } from '../state/offer.ts';
import { takeReading } from '../state/taking.ts';
import { answerOf, askOf } from '../words/states.ts';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

/** A state with more answers than this is a list to choose from, not segments. */
const SEGMENTS_AT_MOST = 6;

/** State words that are seldom other than usual: they fold away into a line of words. */
const SELDOM: ReadonlySet<string> = new Set(['temp', 'charged', 'acc', 'wiggle']);
/** Answers in the order of their size, not of the catalogue. */
const ORDER: Readonly<Record<string, readonly string[]>> = { lights: ['off', 'low', 'high'] };

function answersOf(chosen: Chosen, name: string, phases: 1 | 3): readonly string[] {
  const values = valuesOf(chosen.kind, name, phases);
  const said = chosen.state[name] ?? '';
  const shown = values.includes(said) ? values : [said, ...values];
  const order = ORDER[name];
  const rank = (value: string): number =>
    name === 'rpm' ? (value === 'idle' ? 0 : Number(value)) : (order?.indexOf(value) ?? shown.indexOf(value));
  return [...shown].sort((a, b) => rank(a) - rank(b));
}

/**
 * How the bike stands while the reading is taken. The proposal names its own state, so there all of it is folded
 * away and the picture keeps its place; a reading of the mechanic's own choice is asked what it is about.
 */
export function States(props: { readonly chosen: Chosen; readonly proposed: boolean }): JSX.Element | null {
  const { chosen, proposed } = props;
  const [unfolded, unfold] = useState(false);
  const known = machine.value;
  const offered = offer.value;
  if (!known || !offered) return null;
  const asked = Object.keys(chosen.kind.states)
    .map((name) => ({ name, answers: answersOf(chosen, name, known.spec.alternator.phases) }))
    .filter(({ answers }) => answers.length > 1 && answers.length <= SEGMENTS_AT_MOST);
  const folds = ({ name }: (typeof asked)[number]): boolean => proposed || SELDOM.has(name);
  const shown = asked.filter((state) => unfolded || !folds(state));
  const seldom = asked.filter(({ name }) => SELDOM.has(name));
  return (
    <>
      {asked.some(folds) && (
        <Press class="fold" expanded={unfolded} act={() => unfold(!unfolded)}>
          <span aria-hidden="true">{unfolded ? '▾' : '▸'}</span>
          <span>
            <b>Taken otherwise?</b>
            {seldom.length > 0 && (
              <span class="under">
                {capital(
                  seldom
                    .map(({ name }) =>
                      `${askOf(name)} ${answerOf(name, chosen.state[name] ?? '')}`.toLowerCase(),
                    )
                    .join(', '),
                )}
              </span>
            )}
          </span>
        </Press>
      )}
      {shown.length > 0 && (
        <div class="states">
          {shown.map(({ name, answers }) => (
            <Segments
              key={name}
              ask={askOf(name)}
              choices={answers.map((value) => ({ value, title: answerOf(name, value) }))}
              chosen={chosen.state[name] ?? ''}
              choose={(value) => takeReading(withState(chosen, name, value, offered))}
            />
          ))}
        </div>
      )}
    </>
  );
}
