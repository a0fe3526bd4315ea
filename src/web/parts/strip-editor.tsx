import type { JSX } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { Put } from '../../draft/draft.ts';
import { addPart } from '../../draft/point-parts.ts';
import { stripOf } from '../../draft/point-strip.ts';
import type { Pointed } from '../../draft/pointing.ts';
import { getAt, type Json } from '../../machine/json-value.ts';
import { Fold } from './fold.tsx';
import { StripChoose } from './strip-choose.tsx';
import { StripDrawing } from './strip-drawing.tsx';
import { StripAdd } from './strip-field.tsx';
import { StripPart } from './strip-part.tsx';
import '../style/strip.css';

/** Makes a touch: writes it down, or says why it cannot be; whether it was granted. */
export type Act = (pointed: Pointed) => boolean;

/**
 * Parts and what holds them, by pointing: the strip-down above and live, the part in hand below it as sentences. `value` is
 * the whole machine file, `put` takes the changes of one touch; `chosen` and `choose` where somebody else keeps which part
 * is in hand.
 */
export function StripEditor(props: {
  readonly value: Json;
  readonly put: (puts: readonly Put[]) => void;
  readonly chosen?: string | null;
  readonly choose?: (thing: string | null) => void;
}): JSX.Element {
  const { value, put } = props;
  const [own, setOwn] = useState<string | null>(null);
  const [told, tell] = useState<{ readonly ok: boolean; readonly words: string } | null>(null);
  const asked = props.chosen === undefined ? own : props.chosen;
  const take = (thing: string | null): void => {
    setOwn(thing);
    props.choose?.(thing);
  };
  const choose = (thing: string): void => {
    tell(null);
    take(thing);
  };
  const act: Act = (pointed) => {
    tell({ ok: pointed.ok, words: pointed.ok ? pointed.says : pointed.why });
    if (pointed.ok && pointed.puts.length > 0) put(pointed.puts);
    return pointed.ok;
  };
  const things = useMemo(
    () => stripOf(value),
    ['parts', 'fasteners', 'work'].map((section) => getAt(value, [section])),
  );
  const thing = things.find(({ id }) => id === asked) ?? null;
  // The same drawing is the same node, which the page then leaves alone.
  const drawing = useMemo(
    () => <StripDrawing things={things} chosen={thing?.id ?? null} choose={choose} />,
    [things, thing?.id],
  );
  return (
    <div class="strip-editor stack">
      {things.length > 0 && drawing}
      <div class="strip-halves">
        <div class="stack">
          <StripAdd
            ask={things.length === 0 ? 'The first part, such as seat' : 'One more part'}
            words="Add the part"
            add={(name) => {
              const added = addPart(value, name);
              if (act(added) && added.id !== null) take(added.id);
              return added.ok;
            }}
          />
          {things.length > 0 && (
            <Fold head={`Find a part: ${things.length} in all`}>
              {() => (
                <StripChoose
                  ask="Part of its name"
                  things={things}
                  chosen={thing?.id ?? null}
                  choose={choose}
                />
              )}
            </Fold>
          )}
        </div>
        {thing === null ? (
          <p class="quiet">
            {things.length === 0
              ? 'Begin with what one sees from outside.'
              : 'Touch a part in the drawing to say what it comes off after and what holds it.'}
          </p>
        ) : (
          <StripPart
            key={thing.id}
            file={value}
            thing={thing}
            things={things}
            act={act}
            gone={() => take(null)}
          />
        )}
      </div>
      <p class={told === null ? 'strip-told' : told.ok ? 'strip-told said' : 'strip-told off'} role="status">
        {told !== null && (
          <>
            <b>{told.ok ? '✓' : '▲'}</b> {told.words}
          </>
        )}
      </p>
    </div>
  );
}
