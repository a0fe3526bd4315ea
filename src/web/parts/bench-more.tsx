import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { consequence, deviationsOf } from '../../bench/deviations.ts';
import { DEVIATION_KINDS, type DeviationKind } from '../../job/event.ts';
import { TEXT_LIMITS } from '../../job/event-rule.ts';
import { askingOf, deed } from '../state/bench.ts';
import { places } from '../state/clocks.ts';
import { job } from '../state/job.ts';
import { reply } from '../state/way.ts';
import type { WayStep } from '../way-report.ts';
import { Warning } from './bench-ask.tsx';
import { inTurn } from './later.tsx';
import { PhotoTake } from './photo-take.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';
import { TextEntry } from './text-entry.tsx';
import { WayTroublePanel, WayTroubles } from './way-trouble.tsx';

type Panel = 'stuck' | 'note' | 'other' | null;
/** Longest text that the log takes, characters. */
const MOST = TEXT_LIMITS.why;

/** What one may say at a step beside "done": it is stuck, a note, something else was used. */
export function BenchMore(props: { readonly step: WayStep }): JSX.Element {
  const { step } = props;
  const [panel, show] = useState<Panel>(null);
  const turn = (to: Panel) => show(panel === to ? null : to);
  return (
    <section class="stack tight" aria-label="More at this step">
      <div class="row bench-more">
        {(step.canJam || step.uses.length > 0) && (
          <Press expanded={panel === 'stuck'} act={() => turn('stuck')}>
            It’s stuck
          </Press>
        )}
        <Press expanded={panel === 'note'} act={() => turn('note')}>
          Note
        </Press>
        <PhotoTake step={step.id} about={step.does} />
        <Press expanded={panel === 'other'} act={() => turn('other')}>
          Used something else
        </Press>
      </div>
      {panel === 'stuck' && <WayTroublePanel step={step} close={() => show(null)} />}
      {panel === 'note' && <Note step={step.id} close={() => show(null)} />}
      {panel === 'other' && <Other step={step.id} close={() => show(null)} />}
    </section>
  );
}

function Note(props: { readonly step: string; readonly close: () => void }): JSX.Element {
  const [text, setText] = useState('');
  const [tried, setTried] = useState(false);
  return (
    <div class="stack tight">
      <label class="field">
        <span>Note at this step</span>
        <textarea
          value={text}
          maxLength={TEXT_LIMITS.text}
          onInput={(event) => setText(event.currentTarget.value)}
          aria-invalid={tried && text.trim() === ''}
        />
      </label>
      {tried && text.trim() === '' && <Warning says="Nothing is written yet." />}
      <Press
        class="main sign"
        act={() => {
          setTried(true);
          if (text.trim() === '') return;
          deed({ type: 'noteAdded', text: text.trim(), step: props.step });
          props.close();
        }}
      >
        Keep the note
      </Press>
    </div>
  );
}

const KIND_WORDS: Readonly<Record<DeviationKind, string>> = {
  locker: 'thread locker',
  sealant: 'sealant',
  'used-again': 'an old part again',
  torque: 'another torque',
  other: 'something else',
};
const STRENGTHS = ['none', 'low', 'medium', 'high'].map((value) => ({ value, title: value }));
const CURES = [
  { value: 'neutral', title: 'neutral cure' },
  { value: 'acid', title: 'acid cure' },
];

function Other(props: { readonly step: string; readonly close: () => void }): JSX.Element {
  const [what, setWhat] = useState<DeviationKind>('locker');
  const [used, setUsed] = useState('');
  const [why, setWhy] = useState('');
  const [tried, setTried] = useState(false);
  const choices = what === 'locker' ? STRENGTHS : what === 'sealant' ? CURES : null;
  const said = used.trim();
  const field = (id: string, words: string, example: string) =>
    ({ id, words, kind: 'text', need: 'must', initial: '', example }) as const;
  return (
    <div class="stack tight">
      <Segments
        ask="What was used otherwise"
        choices={DEVIATION_KINDS.map((kind) => ({ value: kind, title: KIND_WORDS[kind] }))}
        chosen={what}
        choose={(value) => {
          setWhat(value as DeviationKind);
          setUsed('');
        }}
      />
      {choices ? (
        <Segments ask="Used" choices={choices} chosen={used} choose={setUsed} />
      ) : (
        <TextEntry
          field={field('used', 'What was used', 'the old gasket, cleaned')}
          text={used}
          why={tried && said === '' ? 'Say what was used.' : null}
          most={MOST}
          enter={setUsed}
        />
      )}
      {choices && tried && said === '' && <Warning says="Say which was used." />}
      <TextEntry
        field={{ ...field('why', 'Because', 'nothing else was at hand'), need: 'may' }}
        text={why}
        why={null}
        most={MOST}
        enter={setWhy}
      />
      {said !== '' &&
        consequence(askingOf(props.step), { what, used: said }).map((says) => (
          <Warning key={says} says={says} />
        ))}
      <Press
        class="main sign"
        act={() => {
          setTried(true);
          if (said === '') return;
          deed({ type: 'deviationNoted', step: props.step, what, used: said, why: why.trim() });
          props.close();
        }}
      >
        Note it
      </Press>
    </div>
  );
}

/** What was done otherwise; looked through after each entry when the screen has shown it, for it judges every record anew. */
function useDeviations(): ReturnType<typeof deviationsOf> {
  const { bench } = job.value;
  const [found, find] = useState<ReturnType<typeof deviationsOf>>([]);
  useEffect(() => inTurn(() => find(deviationsOf(bench, askingOf))), [bench, places.value]);
  return found;
}

/** What was done otherwise in this job so far, with what it means for the next time; and what jams. */
export function BenchOtherwise(): JSX.Element {
  const found = useDeviations();
  const troubles = reply.value?.troubles ?? [];
  const does = (id: string) =>
    places.value.get(id)?.step?.does ?? places.value.get(id)?.action?.entry.does ?? id;
  return (
    <>
      <WayTroubles troubles={troubles} changed={reply.value?.plan?.changed ?? null} />
      {found.length > 0 && (
        <section class="stack tight" aria-labelledby="bench-otherwise">
          <h2 id="bench-otherwise">Done otherwise, for the owner and the next time</h2>
          <ul class="bench-otherwise">
            {found.map(({ event, step, says, why }) => (
              <li key={event}>
                <p class="ask">{does(step)}</p>
                {says.map((words) => (
                  <p key={words}>{words}</p>
                ))}
                {why && <p class="quiet">Because: {why}</p>}
              </li>
            ))}
          </ul>
        </section>
      )}
      {job.value.bench.clips.length > 0 && (
        <p class="quiet">
          Film: {job.value.bench.clips.filter(({ what }) => what === 'start').length} clips begun,{' '}
          {job.value.bench.clips.filter(({ what }) => what === 'clap').length} claps.
        </p>
      )}
    </>
  );
}
