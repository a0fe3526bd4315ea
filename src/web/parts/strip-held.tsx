import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { closesWith, holdingsOf, holdWith, letGo } from '../../draft/point-held.ts';
import { closedWith } from '../../draft/point-steps.ts';
import { entriesAt, textOf } from '../../draft/pointing.ts';
import type { Json } from '../../machine/json-value.ts';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';
import { Stepper } from './stepper.tsx';
import type { Act } from './strip-editor.tsx';

/** “It is held by …”: its fasteners, one more of them, and what it is closed with. */
export function StripHeld(props: {
  readonly file: Json;
  readonly part: string;
  readonly act: Act;
}): JSX.Element {
  const { file, part, act } = props;
  const [open, setOpen] = useState(false);
  const held = holdingsOf(file, part);
  return (
    <div class="stack">
      <h4>What holds it</h4>
      {held.length === 0 && <p>Nothing that was said.</p>}
      <ul class="strip-waits">
        {held.map(({ id, name, count, thread, torque }) => (
          <li key={id}>
            <p>
              It is held by {count !== undefined && `${count} × `}
              <b>{name}</b>
              {thread && `, ${thread}`}
              {torque && `, ${torque}`}.
            </p>
            <div class="row">
              <Press act={() => act(letGo(file, part, id))}>Remove this</Press>
            </div>
          </li>
        ))}
      </ul>
      <div class="row">
        <Press expanded={open} act={() => setOpen(!open)}>
          It is held by …
        </Press>
      </div>
      {open && <HoldForm {...props} done={() => setOpen(false)} />}
      <Segments
        ask="It goes back with a new"
        choices={[
          { value: '', title: 'nothing' },
          { value: 'gasket', title: 'gasket' },
          { value: 'seal', title: 'seal' },
        ]}
        chosen={closedWith(file, part) ?? ''}
        choose={(kind) => act(closesWith(file, part, kind === 'gasket' || kind === 'seal' ? kind : null))}
      />
    </div>
  );
}

/** One more fastener: nothing reaches the file before its button. */
function HoldForm(props: {
  readonly file: Json;
  readonly part: string;
  readonly act: Act;
  readonly done: () => void;
}): JSX.Element {
  const [name, setName] = useState('');
  const [count, setCount] = useState(1);
  const [thread, setThread] = useState('');
  const [torque, setTorque] = useState('');
  const sources = entriesAt(props.file, ['sources']);
  const guess = sources.find(([, one]) => one.kind === 'guess')?.[0];
  const [from, setFrom] = useState(guess ?? '');
  const figures = thread.trim() !== '' || torque.trim() !== '';
  const typed = (ask: string, value: string, set: (text: string) => void): JSX.Element => (
    <label class="field">
      <span>{ask}</span>
      <input
        value={value}
        maxLength={80}
        autocomplete="off"
        onInput={(event) => set(event.currentTarget.value)}
      />
    </label>
  );
  return (
    <div class="strip-form stack">
      {typed('What it is called, such as cover screws', name, setName)}
      <Stepper ask="How many" value={count} unit="pieces" step={1} limits={[1, 60]} set={setCount} />
      {typed('Thread, such as M6 × 1; may be left empty', thread, setThread)}
      {typed('Torque, such as 9–11 N·m; may be left empty', torque, setTorque)}
      {figures && (
        <Segments
          ask="Who says so"
          choices={[
            ...(guess === undefined ? [{ value: '', title: 'a guess' }] : []),
            ...sources.map(([id, one]) => ({ value: id, title: textOf(one.title) || id })),
          ]}
          chosen={from}
          choose={setFrom}
        />
      )}
      <div class="row">
        <Press
          class="main"
          act={() => {
            const said = { name, count, thread, torque, ...(from === '' ? {} : { from }) };
            if (props.act(holdWith(props.file, props.part, said))) props.done();
          }}
        >
          Add the fastener
        </Press>
      </div>
    </div>
  );
}
