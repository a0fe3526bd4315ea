/** A machine file beside another one, or beside an earlier version of itself: each difference, and whose word counts. */
import type { JSX } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { compare, type Difference } from '../../draft/compare.ts';
import { choicesAt, merge, type Whose } from '../../draft/merge.ts';
import { isObject, type Json } from '../../machine/json-value.ts';
import { valueOfText } from '../machine-texts.ts';
import { fetchMachine, fetchMachines, fetchVersions } from '../server.ts';
import { countWords } from '../show.ts';
import { draft, file, put } from '../state/machine-draft.ts';
import { fieldWords } from '../words/fields.ts';
import { sayFigure } from './form-history.tsx';
import { useGrowing } from './later.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

/** What it can be held against. */
interface Other {
  readonly key: string;
  readonly name: string;
  readonly fetch: () => Promise<Json | string>;
}

const WHOSE_WORDS: Readonly<Record<Whose, string>> = { mine: 'as here', theirs: 'as there', both: 'both' };

/** Fetches a file as a value, or says why it cannot be. */
async function fetchValue(id: string, version?: number): Promise<Json | string> {
  const got = await fetchMachine(id, version);
  if (!got.ok) return got.why;
  return valueOfText(got.body) ?? 'The text of that file does not read, so it cannot be compared.';
}

async function othersOf(id: string): Promise<readonly Other[]> {
  const [versions, list] = await Promise.all([fetchVersions(id), fetchMachines()]);
  const earlier = versions.ok
    ? [...versions.body].reverse().map(({ version, savedAt }) => ({
        key: `version ${version}`,
        name: `version ${version}${savedAt === null ? '' : `, ${savedAt.slice(0, 10)}`}`,
        fetch: () => fetchValue(id, version),
      }))
    : [];
  const files = list.ok
    ? list.body
        .filter((one) => one.id !== id)
        .map((one) => ({ key: one.id, name: one.name, fetch: () => fetchValue(one.id) }))
    : [];
  return [...earlier, ...files];
}

export function MachineCompare(): JSX.Element {
  const id = file.value?.id ?? '';
  const [others, setOthers] = useState<readonly Other[] | null>(null);
  const [chosen, choose] = useState<{ readonly other: Other; readonly got: Json | string | null } | null>(
    null,
  );
  useEffect(() => {
    let here = true;
    void othersOf(id).then((found) => here && setOthers(found));
    return () => {
      here = false;
    };
  }, [id]);
  const take = (key: string): void => {
    const other = others?.find((one) => one.key === key);
    choose(other ? { other, got: null } : null);
    if (!other) return;
    void other.fetch().then((got) => choose((now) => (now?.other.key === key ? { other, got } : now)));
  };
  return (
    <div class="stack">
      <label class="field form">
        <span>Beside which?</span>
        <select value={chosen?.other.key ?? ''} onChange={(event) => take(event.currentTarget.value)}>
          <option value="">{others === null ? 'Looking on the laptop…' : '–'}</option>
          {others?.map(({ key, name }) => (
            <option key={key} value={key}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {chosen !== null && chosen.got === null && <p>Fetching it…</p>}
      {typeof chosen?.got === 'string' && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> {chosen.got}
        </p>
      )}
      {chosen !== null && isObject(chosen.got ?? undefined) && draft.value !== null && (
        <Differences key={chosen.other.key} there={chosen.got as Json} name={chosen.other.name} />
      )}
    </div>
  );
}

/** Every difference with whose word counts, and the file made of both. */
export function Differences(props: { readonly there: Json; readonly name: string }): JSX.Element {
  const { there, name } = props;
  const here = draft.value?.value ?? null;
  const [picks, pick] = useState<ReadonlyMap<string, Whose>>(new Map());
  const differences = useMemo(() => compare(here, there), [here, there]);
  const shown = useGrowing(differences.length, 20);
  const taken = differences.filter(({ at }) => (picks.get(at) ?? 'mine') !== 'mine').length;
  if (differences.length === 0) return <p>They say the same.</p>;
  const apply = (): void => {
    // Picks of differences that are gone meanwhile fall away with them.
    const known = new Map(
      differences.flatMap((one) => {
        const whose = picks.get(one.at);
        return whose !== undefined && choicesAt(one).includes(whose) ? [[one.at, whose] as const] : [];
      }),
    );
    put([{ path: [], is: merge(here, there, known) }]);
    pick(new Map());
  };
  const all = (whose: Whose): void =>
    pick(new Map(differences.map((one) => [one.at, choicesAt(one).includes(whose) ? whose : 'mine'])));
  return (
    <div class="stack">
      <h2>
        {countWords(differences.length, 'difference', 'differences')} from {name}
      </h2>
      <div class="row">
        <Press act={() => all('theirs')}>All as there</Press>
        <Press act={() => all('mine')}>All as here</Press>
      </div>
      <ul class="differences">
        {differences.slice(0, shown).map((one) => (
          <OneDifference
            key={one.at}
            one={one}
            whose={picks.get(one.at) ?? 'mine'}
            pick={(whose) => pick(new Map(picks).set(one.at, whose))}
          />
        ))}
      </ul>
      <div class="row">
        <Press class="main" disabled={taken === 0} act={apply}>
          Take over what is picked ({taken})
        </Press>
        <span class="quiet">It can be taken back, and is saved when you save.</span>
      </div>
    </div>
  );
}

function OneDifference(props: {
  readonly one: Difference;
  readonly whose: Whose;
  readonly pick: (whose: Whose) => void;
}): JSX.Element {
  const { one, whose } = props;
  return (
    <li>
      <p>
        <strong>{placeWords(one)}</strong>
      </p>
      <dl class="two-say">
        <dt>here</dt>
        <dd class="figure">{sayFigure(one.here)}</dd>
        <dt>there</dt>
        <dd class="figure">{sayFigure(one.there)}</dd>
      </dl>
      <Segments
        ask={`Whose word counts: ${placeWords(one)}`}
        quietAsk
        choices={choicesAt(one).map((value) => ({ value, title: WHOSE_WORDS[value] }))}
        chosen={whose}
        choose={(value) => props.pick(value as Whose)}
      />
    </li>
  );
}

/** Where it is, in words: "Charging › Alternator › AC volts, unplugged". */
function placeWords({ path }: Difference): string {
  return path.map((key) => (typeof key === 'number' ? `${key + 1}` : fieldWords(key))).join(' › ');
}
