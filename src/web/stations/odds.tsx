import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { MEMBER_NAMES } from '../../draw/member-names.ts';
import { type FaultId, MEMBERS } from '../../fault/catalogue.ts';
import { FAULTS } from '../../fault/faults.ts';
import { TEXT_LIMITS } from '../../job/event-rule.ts';
import type { OwnPrior } from '../../job/fold.ts';
import { chanceFaults } from '../../job/priors.ts';
import { ofHundred } from '../../verdict/say-chance.ts';
import { CASCADE, COUNT } from '../../verdict/sets.ts';
import { hundredths, readChance, roughly } from '../chance-entry.ts';
import { typeKey } from '../entry.ts';
import { Keypad } from '../parts/keypad.tsx';
import { Later, useGrowing } from '../parts/later.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { capital, showTime } from '../show.ts';
import { happenedUndoably, job, jobId } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { chances } from '../state/verdict.ts';

/** A chance that came out this far from what was set is said: not all that was set can stand together. */
const NEAR = 0.03;

function said(fault: FaultId, chance: number | null): string {
  return chance === null
    ? `${capital(FAULTS[fault].title)}: back to the catalogue.`
    : `${capital(FAULTS[fault].title)}: ${ofHundred(hundredths(chance))}.`;
}

/** Number keys for one fault's chance. */
function Editor(props: {
  readonly fault: FaultId;
  readonly own: OwnPrior | null;
  readonly catalogue: number | null;
  readonly close: () => void;
}): JSX.Element {
  const { fault, own, catalogue, close } = props;
  const [text, setText] = useState('');
  const [why, setWhy] = useState(own?.why ?? '');
  const [trouble, setTrouble] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus({ preventScroll: true }), []);
  const set = (chance: number | null): void => {
    happenedUndoably(
      { type: 'priorSet', fault, chance, why: chance === null ? '' : why },
      said(fault, chance),
    );
    close();
  };
  const take = (): void => {
    const read = readChance(text);
    if (read.ok) set(read.chance);
    else setTrouble(read.why);
  };
  const type = (next: string): void => {
    setText(next);
    setTrouble(null);
  };
  return (
    <div class="odds-editor stack tight">
      <label class="entry">
        <span class="unseen">{FAULTS[fault].title}: of a hundred bikes that somebody complains of</span>
        <input
          ref={field}
          class="figure"
          inputMode="none"
          placeholder="how many of 100"
          autocomplete="off"
          value={text}
          aria-invalid={trouble !== null}
          onInput={(event) => type(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              event.preventDefault();
              take();
            } else if (event.key === 'Escape') close();
          }}
        />
        <span class="unit" aria-hidden="true">
          in 100
        </span>
      </label>
      <Keypad type={(key) => type(typeKey(text, key))} take={take} takeWord="Enter" />
      {trouble && (
        <p class="warn" role="alert">
          <b class="flag">▲ Look again</b> {trouble}
        </p>
      )}
      <label class="field">
        <span>Why, if you like</span>
        <input
          value={why}
          maxLength={TEXT_LIMITS.why}
          placeholder="third one of this model this year"
          onInput={(event) => setWhy(event.currentTarget.value)}
        />
      </label>
      <div class="row">
        {own && (
          <Press act={() => set(null)}>
            Back to the catalogue’s {catalogue === null ? 'own' : roughly(catalogue)}
          </Press>
        )}
        <Press act={close}>Leave it as it is</Press>
      </div>
    </div>
  );
}

function sourceWord(fault: FaultId): string {
  return /^guess/.test(FAULTS[fault].priorSource) ? 'a\u00a0guess' : FAULTS[fault].priorSource;
}

function Row(props: {
  readonly fault: FaultId;
  readonly open: boolean;
  readonly turn: (open: boolean) => void;
}): JSX.Element {
  const { fault, open, turn } = props;
  const own = job.value.priors.find((prior) => prior.fault === fault) ?? null;
  const now = chances.value?.now.get(fault) ?? null;
  const catalogue = chances.value?.catalogue.get(fault) ?? null;
  const off = own !== null && now !== null && Math.abs(now / own.chance - 1) > NEAR;
  return (
    <li>
      <div class="odds-row">
        <div>
          <p>{capital(FAULTS[fault].title)}</p>
          <p>
            about{' '}
            <b class="whole">
              {own !== null
                ? ofHundred(hundredths(own.chance))
                : now === null
                  ? '…'
                  : ofHundred(roughly(now))}
            </b>
            {own === null ? (
              <span class="quiet">, {sourceWord(fault)}</span>
            ) : (
              <b class="under">◈ set in this job</b>
            )}
          </p>
          {own && (
            <p class="under">
              {showTime(own.at, new Date())}
              {own.why && `, “${own.why}”`}. The catalogue says{' '}
              {catalogue === null ? '…' : roughly(catalogue)}.
              {off && ` Counts as ${roughly(now)}: all that was set cannot stand together.`}
            </p>
          )}
        </div>
        <Press
          label={open ? `Close: ${FAULTS[fault].title}` : `Change: ${FAULTS[fault].title}`}
          expanded={open}
          act={() => turn(!open)}
        >
          {open ? 'Close' : 'Change'}
        </Press>
      </div>
      {open && <Editor fault={fault} own={own} catalogue={catalogue} close={() => turn(false)} />}
    </li>
  );
}

const NUMBER_WORDS = ['None', 'One', 'Two', 'Three'] as const;

/** What the verdict believes before any reading, fault by fault, to be read and to be set for this job. */
export function Odds(): JSX.Element {
  const [editing, edit] = useState<FaultId | null>(null);
  const known = machine.value;
  const build = known
    ? { phases: known.spec.alternator.phases, senses: known.spec.regulator.senses }
    : ({ phases: 3, senses: 'wire' } as const);
  const faults = chanceFaults(build);
  const groups = MEMBERS.map((member) => ({
    member,
    faults: faults.filter((fault) => FAULTS[fault].member === member),
  })).filter((group) => group.faults.length > 0);
  const shown = useGrowing(groups.length, 2);
  const sources = [...new Set(faults.map((fault) => FAULTS[fault].priorSource))];
  return (
    <>
      <h1 tabIndex={-1}>What usually fails</h1>
      <div class="stack wide narrow verdict">
        <div class="stack tight">
          <p class="step">
            Of a hundred bikes that somebody complains of, about so many have each fault: what the verdict
            believes before any reading.
          </p>
          <p>
            Source: {sources.join('; ')}. If you know better for this bike, set it: it counts in this job
            only.
          </p>
          <a
            class="link"
            href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'verdict', take: null })}
          >
            ← Back to the verdict
          </a>
        </div>
        {groups.slice(0, shown).map(({ member, faults }) => (
          <section key={member} aria-labelledby={`odds-${member}`}>
            <h2 id={`odds-${member}`}>{capital(MEMBER_NAMES[member])}</h2>
            <ul class="odds">
              {faults.map((fault) => (
                <Row
                  key={fault}
                  fault={fault}
                  open={editing === fault}
                  turn={(open) => edit(open ? fault : null)}
                />
              ))}
            </ul>
          </section>
        ))}
        <Later>{() => <Together />}</Later>
      </div>
    </>
  );
}

/** What is believed of faults together. */
function Together(): JSX.Element {
  return (
    <>
      <p class="quiet">
        A battery that is sound but flat has no figure of its own: it is told by its state of charge.
      </p>
      <section aria-labelledby="odds-count" class="stack tight">
        <h2 id="odds-count">How many faults at once</h2>
        <p class="quiet">A guess, not to be changed here.</p>
        <dl class="plate">
          {COUNT.map((chance, count) => (
            <div key={NUMBER_WORDS[count]} class="two">
              <dt>{NUMBER_WORDS[count]}</dt>
              <dd>{ofHundred(hundredths(chance))}</dd>
            </div>
          ))}
        </dl>
      </section>
      <section aria-labelledby="odds-breed" class="stack tight">
        <h2 id="odds-breed">Faults that breed each other</h2>
        <p class="quiet">
          How many times likelier the two are together than if they had nothing to do with each other.
          Guesses, not to be changed here.
        </p>
        <dl class="plate">
          {CASCADE.map(([one, other, times]) => (
            <div key={`${one} ${other}`} class="two">
              <dt>
                {capital(FAULTS[one].title)} and {FAULTS[other].title}
              </dt>
              <dd class="whole">{times} times</dd>
            </div>
          ))}
        </dl>
      </section>
    </>
  );
}
