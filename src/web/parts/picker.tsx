import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { MEMBER_NAMES } from '../../draw/member-names.ts';
import { MEMBERS, type Member } from '../../fault/catalogue.ts';
import { completeKey } from '../../reading/catalogue.ts';
import { readKey } from '../../reading/key.ts';
import { describeKey, kindOf } from '../keys.ts';
import { job } from '../state/job.ts';
import { offer } from '../state/offer.ts';
import { openReading, picking } from '../state/taking.ts';
import { answer } from '../state/verdict.ts';
import { drawerOf, TOOL_TITLES } from '../words/tools.ts';
import { Press } from './press-button.tsx';

/** Other good readings shown, at most. */
const ALTERNATIVES = 6;

interface Line {
  readonly key: string;
  readonly minutes: number;
  readonly words: string;
}

/** All words of the search must occur, in any order. */
export function matches(words: string, search: string): boolean {
  const text = words.toLowerCase();
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

/** One kind stands for all its states, which are chosen on the segments afterwards; things seen are many. */
function usual(keys: readonly string[]): readonly string[] {
  const best = new Map<string, string>();
  for (const key of keys) {
    const read = readKey(key);
    if (!read) continue;
    const line = read.kind === 'visual' ? key : read.kind;
    const full = completeKey(read).state;
    const plain = Object.entries(kindOf(key)?.states ?? {}).every(
      ([name, values]) => full[name] === values[0],
    );
    if (plain || !best.has(line)) best.set(line, key);
  }
  return [...best.values()];
}

function Lines(props: {
  readonly lines: readonly Line[];
  readonly pick: (key: string) => void;
}): JSX.Element {
  return (
    <ul class="pick-list">
      {props.lines.map(({ key, minutes, words }) => (
        <li key={key}>
          <Press class="plain" act={() => props.pick(key)}>
            <span>{words}</span>
            <span class="figure quiet">{minutes} min</span>
          </Press>
        </li>
      ))}
    </ul>
  );
}

/** The catalogue: first what the verdict also holds good, then everything, by the part it speaks of. */
export function Picker(props: { readonly about: Member | null }): JSX.Element {
  const [search, setSearch] = useState('');
  const tools = job.value.tools;
  const pick = (key: string): void => {
    openReading(key);
    picking.value = null;
  };
  const line = (key: string, minutes: number): Line => ({ key, minutes, words: describeKey(key) });
  const lines = usual(offer.value?.keys ?? []).map((key): Line => {
    const kind = kindOf(key);
    return {
      key,
      minutes: kind?.minutes ?? 0,
      words: kind && kind.id !== 'visual' ? kind.title : describeKey(key),
    };
  });
  const asked = lines.filter(({ key, words }) => matches(`${words} ${describeKey(key)}`, search));
  const seen = props.about === null ? asked.filter(({ key }) => kindOf(key)?.unit === 'seen') : [];
  const groups = MEMBERS.filter((member) => props.about === null || member === props.about)
    .map((member) => ({
      member,
      lines: asked.filter(({ key }) => {
        const about = kindOf(key)?.about ?? [];
        return props.about === null
          ? about[0] === member && kindOf(key)?.unit !== 'seen'
          : about.includes(member);
      }),
    }))
    .filter((group) => group.lines.length > 0);
  const alternatives =
    answer.value?.alternatives.slice(0, ALTERNATIVES).map(({ key, minutes }) => line(key, minutes)) ?? [];
  const missing = [...new Set(lines.map(({ key }) => kindOf(key)?.tool))].filter((tool) => {
    const drawer = tool ? drawerOf(tool) : null;
    return drawer !== null && !tools?.[drawer];
  });
  return (
    <div class="picker stack">
      <label class="field">
        <span>Find a reading</span>
        <input
          type="search"
          value={search}
          placeholder="ripple, sense, pins…"
          onInput={(event) => setSearch(event.currentTarget.value)}
        />
      </label>
      <div class="pick-groups">
        {search === '' && props.about === null && alternatives.length > 0 && (
          <section>
            <h3>Also good now</h3>
            <Lines lines={alternatives} pick={pick} />
          </section>
        )}
        {groups.map(({ member, lines }) => (
          <section key={member}>
            <h3>About the {MEMBER_NAMES[member]}</h3>
            <Lines lines={lines} pick={pick} />
          </section>
        ))}
        {seen.length > 0 && (
          <section>
            <h3>Look and smell</h3>
            <Lines lines={seen} pick={pick} />
          </section>
        )}
      </div>
      {groups.length === 0 && seen.length === 0 && (
        <p>No reading {search === '' ? 'speaks of that part' : `matches “${search}”`}.</p>
      )}
      {missing.length > 0 && (
        <p class="quiet">
          Some need a tool that is not ticked under Complaint:{' '}
          {missing.map((tool) => (tool ? TOOL_TITLES[tool] : '')).join(', ')}.
        </p>
      )}
    </div>
  );
}
