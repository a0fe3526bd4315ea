/** Way in: what comes off, in which order, how long, when it can be ridden; for one machine, from targets chosen here. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { pictureOf } from '../parts/picture.tsx';
import { Press } from '../parts/press-button.tsx';
import { Segments } from '../parts/segments.tsx';
import { writeRoute } from '../route.ts';
import { fetchMachine, type Got } from '../server.ts';
import type { WayAsk, WayPlan, WayReply, WayStep } from '../way-worker.ts';
import '../style/way.css';

const STARTS = ['09:00', '14:00', '18:00', '20:00'] as const;
const PHASES = {
  in: 'Going in',
  bottom: 'At the bottom',
  out: 'Coming back out',
  closing: 'Closing',
} as const;
const HOLDS = { sign: 'sign it', measure: 'measure', look: 'look', wait: 'wait' } as const;

/** Asks the worker for a plan; an answer to what is no longer asked keeps its targets and loses its plan. */
function usePlanned(
  ask: Omit<WayAsk, 'id' | 'text' | 'year' | 'shape'>,
  text: string | null,
): WayReply | null {
  const [got, setGot] = useState<{ readonly said: string; readonly reply: WayReply } | null>(null);
  const worker = useRef<Worker | null>(null);
  const asked = useRef({ id: 0, said: '' });
  useEffect(() => {
    const made = new Worker(new URL('../way-worker.ts', import.meta.url), { type: 'module' });
    made.addEventListener('message', ({ data }: MessageEvent<WayReply>) => {
      if (data.id === asked.current.id) setGot({ said: asked.current.said, reply: data });
    });
    made.addEventListener('error', () => {
      const why = 'The planner did not start on this device. Reload the page.';
      const { id, said } = asked.current;
      setGot((before) => ({ said, reply: { id, targets: before?.reply.targets ?? [], plan: null, why } }));
    });
    worker.current = made;
    return () => made.terminate();
  }, []);
  const said = JSON.stringify(ask);
  useEffect(() => {
    if (text === null) return;
    asked.current = { id: asked.current.id + 1, said };
    const shape = matchMedia('(min-width: 62rem)').matches ? 'wide' : 'narrow';
    const year = new Date().getFullYear();
    worker.current?.postMessage({
      ...JSON.parse(said),
      id: asked.current.id,
      text,
      year,
      shape,
    } satisfies WayAsk);
  }, [said, text]);
  // Compared by what was asked, not by number: the number only goes up after the picture is drawn.
  if (got === null || got.said === said) return got?.reply ?? null;
  return { ...got.reply, plan: null, why: null };
}

/** The page. `repairs`: what a verdict calls for, whose targets are chosen to begin with. */
export function WayPage(props: {
  readonly machine: string;
  readonly repairs: readonly string[];
}): JSX.Element {
  const [got, setGot] = useState<Got<string> | null>(null);
  const [chosen, choose] = useState<readonly string[] | null>(null);
  const [people, setPeople] = useState<1 | 2>(1);
  const [start, setStart] = useState<string>('18:00');
  const [nights, setNights] = useState(true);
  const [seized, setSeized] = useState<readonly string[]>([]);
  useEffect(() => {
    void fetchMachine(props.machine).then(setGot);
  }, [props.machine]);
  const [hours, minutes] = start.split(':').map(Number) as [number, number];
  const reply = usePlanned(
    { targets: chosen ?? [], people, startsAt: 60 * hours + minutes, nights, seized },
    got?.ok ? got.body : null,
  );
  const targets = reply?.targets ?? [];
  // The verdict's repairs choose the targets once these are known.
  useEffect(() => {
    if (chosen !== null || targets.length === 0) return;
    choose(
      targets.filter(({ repairs }) => repairs.some((id) => props.repairs.includes(id))).map(({ id }) => id),
    );
  }, [targets, chosen, props.repairs]);
  const toggle = (id: string): void => {
    const now = chosen ?? [];
    setSeized([]);
    choose(now.includes(id) ? now.filter((one) => one !== id) : [...now, id]);
  };
  return (
    <div class="stack wide way">
      <h1 tabIndex={-1}>Way in</h1>
      {got?.ok === false && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {got.why}
        </p>
      )}
      <section class="stack tight" aria-labelledby="way-to">
        <h2 id="way-to">What to get to</h2>
        <div class="toggles">
          {targets.map(({ id, name }) => (
            <Press key={id} pressed={(chosen ?? []).includes(id)} act={() => toggle(id)}>
              {name}
            </Press>
          ))}
        </div>
      </section>
      <div class="way-choices">
        <Segments
          ask="How many work on it"
          choices={[
            { value: '1', title: 'one' },
            { value: '2', title: 'two' },
          ]}
          chosen={String(people)}
          choose={(value) => setPeople(value === '2' ? 2 : 1)}
        />
        <Segments
          ask="When it begins"
          choices={STARTS.map((value) => ({ value, title: value }))}
          chosen={start}
          choose={setStart}
        />
        <Segments
          ask="Nights"
          choices={[
            { value: 'yes', title: '22:00 to 07:00 nobody' },
            { value: 'no', title: 'through' },
          ]}
          chosen={nights ? 'yes' : 'no'}
          choose={(value) => setNights(value === 'yes')}
        />
      </div>
      {reply?.why && (
        <p class="warn" role="alert">
          <b class="flag">▲</b> {reply.why}
        </p>
      )}
      {seized.length > 0 && (
        <div class="row">
          <p>
            Planned anew: {seized.length === 1 ? 'one thing does' : `${seized.length} things do`} not come.
          </p>
          <Press act={() => setSeized([])}>It came after all</Press>
        </div>
      )}
      {reply?.plan && (
        <Shown plan={reply.plan} seize={(action) => setSeized((now) => [...new Set([...now, action])])} />
      )}
      {(chosen?.length ?? 0) > 0 && !reply?.plan && !reply?.why && <p class="step">Planning…</p>}
      {chosen?.length === 0 && !reply?.why && <p class="step">Choose what to get to.</p>}
      <a class="link" href={writeRoute({ at: 'jobs' })}>
        To the list of jobs
      </a>
    </div>
  );
}

const ZOOMS = [0.6, 0.8, 1, 1.3, 1.7, 2.2] as const;

function Shown(props: { readonly plan: WayPlan; readonly seize: (action: string) => void }): JSX.Element {
  const { plan } = props;
  const [zoom, setZoom] = useState(2);
  const [width = 600] = String(plan.dip.attrs.viewBox).split(' ').slice(2).map(Number);
  return (
    <>
      <section class="stack tight" aria-label="When it can be ridden" aria-live="polite">
        <p class="step">
          Ride from <b>{plan.p50}</b> one time in two, <b>{plan.p90}</b> nine times in ten.
        </p>
        {plan.says.map((words) => (
          <p key={words}>{words}</p>
        ))}
        {plan.late.map((words) => (
          <p key={words} class="warn">
            <b class="flag">▲</b> {words}
          </p>
        ))}
      </section>
      <section class="stack tight" aria-label="The dip">
        <div class="row">
          <Press label="Smaller" disabled={zoom === 0} act={() => setZoom(zoom - 1)}>
            −
          </Press>
          <Press label="Larger" disabled={zoom === ZOOMS.length - 1} act={() => setZoom(zoom + 1)}>
            +
          </Press>
        </div>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
        <section class="dip-scroll" aria-label="The dip, scrolls sideways" tabIndex={0}>
          {pictureOf({
            ...plan.dip,
            attrs: { ...plan.dip.attrs, width: Math.round(width * ZOOMS[zoom]!) },
          })}
        </section>
      </section>
      <section class="stack tight" aria-labelledby="before">
        <h2 id="before">Before you open it</h2>
        <ul class="way-list">
          {plan.list.map((line) => (
            <li key={line}>□ {line}</li>
          ))}
        </ul>
        <p>Tools: {plan.tools.join(', ')}.</p>
      </section>
      {(['in', 'bottom', 'out', 'closing'] as const).map((phase) => {
        const steps = plan.steps.filter((step) => step.phase === phase);
        if (steps.length === 0) return null;
        return (
          <section key={phase} class="stack tight" aria-label={PHASES[phase]}>
            <h2>{PHASES[phase]}</h2>
            <ol class="way-steps">
              {steps.map((step) => (
                <Step key={step.id} step={step} seize={props.seize} />
              ))}
            </ol>
          </section>
        );
      })}
    </>
  );
}

function Step(props: { readonly step: WayStep; readonly seize: (action: string) => void }): JSX.Element {
  const { step } = props;
  const { action } = step;
  const notes = [
    step.alone ? 'runs by itself' : `${step.minutes} min`,
    ...(step.people > 1 ? [`${step.people} people`] : []),
    ...(step.hold ? [`stop: ${HOLDS[step.hold]}`] : []),
    ...(step.critical ? ['the ride waits for this'] : []),
  ];
  return (
    <li>
      <p class="way-time">{step.time}</p>
      <div class="stack tight">
        {step.caution && (
          <p class="warn">
            <b class="flag">▲ Caution</b> {step.caution}
          </p>
        )}
        <p>{step.does}</p>
        <p class="quiet">{notes.join(' · ')}</p>
      </div>
      {action !== null && !step.alone && (
        <Press class="plain" label={`It will not come: ${step.does}`} act={() => props.seize(action)}>
          It will not come
        </Press>
      )}
    </li>
  );
}
