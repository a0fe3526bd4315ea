/** The sheet that came with a new part, entered once: it stands beside the book, and counts once the part is on the bike. */
import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import { putSheet, type SheetFigure } from '../../draft/part-sheet.ts';
import { type SheetPlace, sheetPlaces } from '../../draft/sheet-places.ts';
import { PARTS, type Part } from '../../machine/definition.ts';
import { type Json, pathText } from '../../machine/json-value.ts';
import { countWords } from '../show.ts';
import { draft, put } from '../state/machine-draft.ts';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

const PART_NAMES: Readonly<Record<Part, string>> = {
  alternator: 'stator or rotor',
  regulator: 'regulator',
  battery: 'battery',
  loads: 'lamps',
  fuse: 'fuse',
  wiring: 'wiring',
};

interface Typed {
  readonly is: string;
  readonly at: string;
}

export function MachineSheet(): JSX.Element | null {
  const value = draft.value?.value;
  const [part, setPart] = useState<Part>('alternator');
  const [title, setTitle] = useState('');
  const [fitted, setFitted] = useState(false);
  const [typed, setTyped] = useState<Readonly<Record<string, Typed>>>({});
  const [told, tell] = useState<string | null>(null);
  if (value === undefined) return null;
  const places = sheetPlaces(value, part);
  const figures = figuresOf(places, typed);
  const enter = (): void => {
    put(putSheet(value, { part, title: title.trim(), fitted, figures }));
    tell(
      `${countWords(figures.length, 'figure is', 'figures are')} entered beside what stood there. Save when you are done; it can be taken back.`,
    );
    setTyped({});
  };
  return (
    <div class="stack form">
      <Segments
        ask="Which part came new?"
        choices={PARTS.filter((one) => sheetPlaces(value, one).length > 0).map((one) => ({
          value: one,
          title: PART_NAMES[one],
        }))}
        chosen={part}
        choose={(one) => {
          setPart(one as Part);
          setTyped({});
          tell(null);
        }}
      />
      <label class="field">
        <span>What the sheet is called</span>
        <input
          class="typed"
          value={title}
          maxLength={160}
          placeholder="as printed at its head"
          onInput={(event) => setTitle(event.currentTarget.value)}
        />
      </label>
      <Segments
        ask="Is the part on the bike now?"
        choices={[
          { value: 'no', title: 'not yet' },
          { value: 'yes', title: 'yes' },
        ]}
        chosen={fitted ? 'yes' : 'no'}
        choose={(one) => setFitted(one === 'yes')}
      />
      <p class="quiet">
        Fill in what the sheet says and leave the rest open. Where it differs from the book, the sheet counts
        for the new part, and each step that needs the figure shows both.
      </p>
      {places.map((place) => (
        <PlaceField
          key={pathText(place.path)}
          place={place}
          typed={typed[pathText(place.path)] ?? { is: '', at: '' }}
          enter={(now) => {
            setTyped({ ...typed, [pathText(place.path)]: now });
            tell(null);
          }}
        />
      ))}
      <div class="row">
        <Press class="main" disabled={title.trim() === '' || figures.length === 0} act={enter}>
          Enter the sheet
        </Press>
        {title.trim() === '' && <span class="quiet">Say first what the sheet is called.</span>}
      </div>
      <p role="status">{told}</p>
    </div>
  );
}

/** What was filled in, as figures of the file. */
function figuresOf(
  places: readonly SheetPlace[],
  typed: Readonly<Record<string, Typed>>,
): readonly SheetFigure[] {
  return places.flatMap(({ path, at, words }) => {
    const { is = '', at: speed = '' } = typed[pathText(path)] ?? {};
    if (is.trim() === '') return [];
    const number = words?.find((word) => typeof word === 'number' && String(word) === is.trim());
    const said: Json = number ?? is.trim();
    return [{ path, is: at === null ? { is: said } : { is: said, at: speed.trim() || at } }];
  });
}

function PlaceField(props: {
  readonly place: SheetPlace;
  readonly typed: Typed;
  readonly enter: (typed: Typed) => void;
}): JSX.Element {
  const { place, typed } = props;
  const id = useId();
  const label = place.label.charAt(0).toUpperCase() + place.label.slice(1);
  return (
    <div>
      <div class={place.at === null ? undefined : 'entry-row at-speed'}>
        <label class="field" for={id}>
          <span>{label}</span>
          {place.words ? (
            <select
              id={id}
              class="typed"
              value={typed.is}
              onChange={(event) => props.enter({ ...typed, is: event.currentTarget.value })}
            >
              <option value="">not said</option>
              {place.words.map((word) => (
                <option key={word} value={String(word)}>
                  {word}
                </option>
              ))}
            </select>
          ) : (
            <input
              id={id}
              class="typed"
              value={typed.is}
              maxLength={120}
              autocapitalize="off"
              spellcheck={false}
              placeholder={`such as ${place.example}`}
              onInput={(event) => props.enter({ ...typed, is: event.currentTarget.value })}
            />
          )}
        </label>
        {place.at !== null && (
          <label class="field">
            <span>at</span>
            <input
              class="typed"
              value={typed.at}
              maxLength={40}
              placeholder={place.at}
              aria-label={`${label}: at which engine speed`}
              onInput={(event) => props.enter({ ...typed, at: event.currentTarget.value })}
            />
          </label>
        )}
      </div>
      <p class="below">{place.stands === null ? 'nothing stands there yet' : `now ${place.stands}`}</p>
    </div>
  );
}
