/** Devices: letting a phone or tablet in, shutting one out, and what this browser can do. */
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Code } from '../parts/code.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { testBrowser } from '../self-test.ts';
import {
  type DeviceList,
  fetchDevices,
  type Got,
  type Invitation,
  inviteDevice,
  openDoor,
  pairHere,
  shutOut,
} from '../server.ts';
import { showTime } from '../show.ts';
import { go } from '../state/place.ts';

function Trouble(props: { readonly why: string | null }): JSX.Element | null {
  return props.why === null ? null : (
    <p class="warn" role="alert">
      <b class="flag">▲ Caution</b> {props.why}
    </p>
  );
}

export function Devices(): JSX.Element {
  const [list, setList] = useState<DeviceList | null>(null);
  const [invitation, setInvitation] = useState<Invitation | null>(null);
  const [why, setWhy] = useState<string | null>(null);
  const take = (got: Got<DeviceList>): void => {
    setWhy(got.ok ? null : got.kind === 'missing' ? ONLY_THERE : got.why);
    if (got.ok) setList(got.body);
  };
  useEffect(() => {
    const load = () => void fetchDevices().then(take);
    load();
    // A device that was just let in shows by itself.
    const timer = setInterval(load, 4000);
    return () => clearInterval(timer);
  }, []);
  const invite = async (): Promise<void> => {
    const got = await inviteDevice();
    setWhy(got.ok ? null : got.why);
    setInvitation(got.ok ? got.body : null);
  };
  const door = list?.door ?? null;
  return (
    <div class="stack wide devices">
      <h1 tabIndex={-1}>Devices</h1>
      <p>
        A phone or tablet in the same network can work on the jobs with you. Nothing leaves the garage: they
        speak with this laptop alone, encrypted, and only devices that you let in see anything.
      </p>
      <Trouble why={why} />
      {list && (
        <section class="stack tight" aria-labelledby="door">
          <h2 id="door">The door</h2>
          <p>
            {door ? (
              <>
                <b class="mark done">◆ Open</b> at {door.hosts.join(', ')}.
              </>
            ) : (
              <b class="mark">□ Shut. Only this laptop is let in.</b>
            )}
          </p>
          <div class="row">
            <Press
              class={door ? '' : 'main'}
              act={() => {
                setInvitation(null);
                void openDoor(door === null).then(take);
              }}
            >
              {door ? 'Shut the door' : 'Open the door'}
            </Press>
            {door && (
              <Press class="main" act={() => void invite()}>
                Let a device in
              </Press>
            )}
          </div>
        </section>
      )}
      {door && invitation && (
        <section class="stack tight invitation" aria-labelledby="scan">
          <h2 id="scan">Scan this with the phone</h2>
          <Code text={invitation.landings[0] ?? ''} label="The code that lets one device in" />
          <p>
            Or type this address there:{' '}
            <span class="address">{invitation.landings[0]?.replace('#', ' #')}</span>
          </p>
          <p>
            It lets one device in and holds until{' '}
            {showTime(new Date(invitation.until).toISOString(), new Date())}. The phone will warn that it does
            not know this laptop: the page it opens shows what to tap, and how to be rid of the warning.
          </p>
          {invitation.landings.length > 1 && (
            <p class="quiet">Should it not be reached: {invitation.landings.slice(1).join(' or ')}</p>
          )}
        </section>
      )}
      {list && (
        <section class="stack tight" aria-labelledby="let-in">
          <h2 id="let-in">Let in</h2>
          {list.devices.length === 0 && <p>No other device yet.</p>}
          <ul class="device-list">
            {list.devices.map(({ id, name, pairedAt }) => (
              <li key={id} class="row">
                <span>
                  {name}
                  <span class="under">since {showTime(pairedAt, new Date())}</span>
                </span>
                <Press label={`Shut out: ${name}`} act={() => void shutOut(id).then(take)}>
                  Shut it out
                </Press>
              </li>
            ))}
          </ul>
        </section>
      )}
      {/* It waits for what stands above: nothing moves away from a finger. */}
      {(list || why) && (
        <div class="row">
          <a class="link" href={writeRoute({ at: 'self-test' })}>
            What this browser can do
          </a>
          <a class="link" href={writeRoute({ at: 'jobs' })}>
            To the list of jobs
          </a>
        </div>
      )}
    </div>
  );
}

const ONLY_THERE = 'Who is let in is decided on the laptop itself: open this page there.';

/** What a phone opens after its browser let it through: one press, and it is let in. */
export function Pair(props: { readonly secret: string }): JSX.Element {
  const [name, setName] = useState('');
  const [why, setWhy] = useState<string | null>(null);
  const pair = async (): Promise<void> => {
    const got = await pairHere(props.secret, name.trim());
    if (got.ok) go({ at: 'jobs' });
    else
      setWhy(
        got.kind === 'missing'
          ? 'This is the laptop itself: there is nothing to pair. Scan the code with the phone.'
          : got.why,
      );
  };
  return (
    <div class="stack">
      <h1 tabIndex={-1}>Pair this device</h1>
      <p>It will see the jobs on the laptop and may write in them, until it is shut out there.</p>
      <label class="field">
        <span>What to call it</span>
        <input
          value={name}
          maxLength={40}
          placeholder="tablet at the lift"
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <Trouble why={why} />
      <Press class="main" act={() => void pair()}>
        Pair it
      </Press>
    </div>
  );
}

const SIGNS = { yes: '● yes', no: '○ no', asks: '◐ when asked' } as const;

/** What this browser can do, tried out rather than looked up. */
export function SelfTest(): JSX.Element {
  const [lines, setLines] = useState<Awaited<ReturnType<typeof testBrowser>> | null>(null);
  useEffect(() => {
    void testBrowser().then(setLines);
  }, []);
  return (
    <div class="stack wide">
      <h1 tabIndex={-1}>What this browser can do</h1>
      {lines === null && <p class="step">Trying it out…</p>}
      {lines && (
        <dl class="self-test">
          {lines.map(({ what, can, means }) => (
            <div key={what}>
              <dt>
                {what}: <b>{SIGNS[can]}</b>
              </dt>
              <dd>{means}</dd>
            </div>
          ))}
        </dl>
      )}
      {lines && (
        <a class="link" href={writeRoute({ at: 'devices' })}>
          To the devices
        </a>
      )}
    </div>
  );
}
