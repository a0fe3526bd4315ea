import type { JSX } from 'preact';
import {
  actionNow,
  addTool,
  SEIZING,
  setHands,
  setMinutes,
  setSeizing,
  useTool,
} from '../../draft/point-work.ts';
import { entriesAt, textOf } from '../../draft/pointing.ts';
import { getAt, type Json } from '../../machine/json-value.ts';
import { PLACES } from '../../machine/work-definition.ts';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';
import type { Act } from './strip-editor.tsx';
import { StripAdd, StripField } from './strip-field.tsx';

const PLACE_WORDS: Readonly<Record<(typeof PLACES)[number], string>> = {
  'inside-oil': 'inside, in oil',
  outside: 'outside',
  'exhaust-side': 'near the exhaust',
  'hidden-corrosion': 'where rust hides',
};

/** “It takes …”: minutes, hands and tools of one action, and whether it may seize. */
export function StripTakes(props: {
  readonly file: Json;
  readonly action: string;
  readonly act: Act;
}): JSX.Element | null {
  const { file, action, act } = props;
  const now = actionNow(file, action);
  if (now === null) return null;
  const { low = 0, high = 0, likely = null } = now.minutes ?? {};
  const middle = likely ?? Number(((low + high) / 2).toFixed(2));
  const read = (text: string): number => Number(text.replace(',', '.').trim() || Number.NaN);
  const set = (next: { low?: number; likely?: number | null; high?: number }): void => {
    const minutes = { low, likely, high, ...next };
    // Moving an end past the likely time or the other end takes these along: one field is changed at a time.
    if (next.low !== undefined && next.low > high) minutes.high = next.low;
    if (next.high !== undefined && next.high < low) minutes.low = next.high;
    if (minutes.likely !== null && next.likely === undefined)
      minutes.likely = Math.min(minutes.high, Math.max(minutes.low, minutes.likely));
    act(setMinutes(file, action, minutes));
  };
  const place = getAt(file, ['work', 'actions', action, 'seizes', 'place']);
  const where = PLACES.find((one) => one === place) ?? 'outside';
  const often = Object.entries(SEIZING).find(([, percent]) => percent === now.seizes)?.[0];
  const tools = entriesAt(file, ['work', 'tools']);
  return (
    <div class="stack">
      <h4>What it takes</h4>
      <div class="strip-minutes">
        <StripField
          figure
          ask="Least, min"
          most={6}
          value={String(low)}
          enter={(text) => set({ low: read(text) })}
        />
        <StripField
          figure
          ask="Likely, min"
          most={6}
          value={String(middle)}
          enter={(text) => set({ likely: read(text) })}
        />
        <StripField
          figure
          ask="Most, min"
          most={6}
          value={String(high)}
          enter={(text) => set({ high: read(text) })}
        />
      </div>
      <Segments
        ask="Hands"
        choices={[
          { value: '1', title: 'one person' },
          { value: '2', title: 'two people' },
          { value: '0', title: 'by itself' },
        ]}
        chosen={String(now.hands)}
        choose={(hands) => act(setHands(file, action, hands === '0' ? 0 : hands === '2' ? 2 : 1))}
      />
      {tools.length > 0 && (
        <fieldset>
          <legend>Tools</legend>
          <div class="toggles">
            {tools.map(([id, tool]) => (
              <Press
                key={id}
                pressed={now.tools.includes(id)}
                act={() => act(useTool(file, action, id, !now.tools.includes(id)))}
              >
                {textOf(tool.name) || id}
              </Press>
            ))}
          </div>
        </fieldset>
      )}
      <StripAdd ask="One more tool" words="Add the tool" add={(name) => act(addTool(file, action, name))} />
      <Segments
        ask="How often does it seize?"
        choices={[
          { value: 'never', title: 'never' },
          ...Object.keys(SEIZING).map((word) => ({ value: word, title: word })),
          ...(now.seizes !== null && often === undefined
            ? [{ value: 'as-said', title: `${now.seizes} in 100` }]
            : []),
        ]}
        chosen={now.seizes === null ? 'never' : (often ?? 'as-said')}
        choose={(word) => {
          if (word === 'as-said') return;
          const basePercent = SEIZING[word as keyof typeof SEIZING];
          act(setSeizing(file, action, basePercent === undefined ? null : { basePercent, place: where }));
        }}
      />
      {now.seizes !== null && (
        <Segments
          ask="It sits"
          choices={PLACES.map((one) => ({ value: one, title: PLACE_WORDS[one] }))}
          chosen={where}
          choose={(one) =>
            act(
              setSeizing(file, action, {
                basePercent: now.seizes ?? 0,
                place: one as (typeof PLACES)[number],
              }),
            )
          }
        />
      )}
    </div>
  );
}
