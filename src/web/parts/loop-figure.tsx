import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { probePointsOf } from '../../draw/loop.ts';
import type { LoopInput, Probes } from '../../draw/loop-plan.ts';
import { readingProbes } from '../../draw/reading-loop.ts';
import { MEMBERS, type Member } from '../../fault/catalogue.ts';
import { FAULTS } from '../../fault/faults.ts';
import { readKey } from '../../reading/key.ts';
import type { ProbePoint } from '../../reading/kinds.ts';
import { showValue } from '../../reading/say-value.ts';
import { bandWords } from '../../verdict/say-sound.ts';
import { isExplained } from '../advised.ts';
import type { Drawn } from '../draw-worker.ts';
import { type Chosen, kindOf } from '../keys.ts';
import { askDrawing } from '../state/drawing.ts';
import { machine } from '../state/machine.ts';
import { proof, proving, readings } from '../state/side.ts';
import { answer, soundShows } from '../state/verdict.ts';
import { Sheet } from './sheet.tsx';

/** Under this a member counts as proven once a reading speaks of it, probability. */
const PROVEN = 0.02;
const NARROW_BELOW = '(max-width: 44.99rem)';
const UNKNOWN = Object.fromEntries(MEMBERS.map((member) => [member, 0])) as Record<Member, number>;

function useNarrow(): boolean {
  const [narrow, setNarrow] = useState(() => matchMedia(NARROW_BELOW).matches);
  useEffect(() => {
    const query = matchMedia(NARROW_BELOW);
    const changed = (): void => setNarrow(query.matches);
    query.addEventListener('change', changed);
    return () => query.removeEventListener('change', changed);
  }, []);
  return narrow;
}

/** What each member is suspected of, of the bike that is being read; null while it is not known. */
function suspicionNow(): Readonly<Record<Member, number>> | null {
  if (!proving.value) return answer.value?.suspicion ?? null;
  if (proof.value === null) return null;
  const shares = { ...UNKNOWN };
  for (const { fault, probability } of proof.value.left) shares[FAULTS[fault].member] += probability;
  for (const member of MEMBERS) shares[member] = Math.min(1, shares[member]);
  return shares;
}

/** Members that a reading speaks of and that are hardly suspected any more. */
function provenMembers(): readonly Member[] {
  const suspicion = suspicionNow();
  // What nothing explains proves nothing either.
  const explained = proving.value ? proof.value?.misfit === false : answer.value && isExplained(answer.value);
  if (!suspicion || !explained) return [];
  const spoken = new Set(readings.value.flatMap((reading) => kindOf(reading.key)?.about ?? []));
  return MEMBERS.filter((member) => spoken.has(member) && suspicion[member] < PROVEN);
}

/** The newest figure at rest and running, where the drawing has room for it. */
function figures(): Partial<Record<Member, string>> {
  const found: Partial<Record<Member, string>> = {};
  for (const { key, value } of readings.value) {
    const kind = kindOf(key);
    const member = kind?.about[0];
    if (kind && member && typeof value === 'number') found[member] = showValue(value, kind.unit);
  }
  return found;
}

function probes(chosen: Chosen, places: readonly ProbePoint[]): Probes | null {
  const key = readKey(chosen.key);
  return key && readingProbes(key, places, bandWords(soundShows(chosen.key), chosen.kind.unit));
}

function inputFor(
  chosen: Chosen | null,
  shape: 'narrow' | 'wide',
  highlight: Member | null,
): LoopInput | null {
  const known = machine.value;
  if (!known) return null;
  const { alternator, regulator, loadsFedFrom } = known.spec;
  const circuit = {
    phases: alternator.phases,
    regulator: regulator.kind,
    senses: regulator.senses,
    loadsFedFrom,
  };
  return {
    ...circuit,
    suspicion: suspicionNow() ?? UNKNOWN,
    proven: provenMembers(),
    readings: figures(),
    probes: chosen ? probes(chosen, probePointsOf(circuit)) : null,
    shape,
    highlight,
  };
}

/** The drawing for an input, asked for anew only when the input says something else; the old one stays till then. */
function useDrawing(input: LoopInput | null): Drawn | null {
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  const text = JSON.stringify(input);
  useEffect(() => (input === null ? undefined : askDrawing(input, setDrawn)), [text]);
  return drawn;
}

/** The loop with suspicion shaded and, where a reading is at hand, the probes where they go. */
export function LoopFigure(props: {
  readonly chosen: Chosen | null;
  readonly pick?: (member: Member) => void;
  /** Always so; by the width of the screen when left out. */
  readonly shape?: 'narrow' | 'wide';
  /** A member to be marked: the one in hand. */
  readonly highlight?: Member;
}): JSX.Element | null {
  const narrow = useNarrow();
  const drawing = useDrawing(
    inputFor(props.chosen, props.shape ?? (narrow ? 'narrow' : 'wide'), props.highlight ?? null),
  );
  if (drawing === null) return null;
  const member = (target: EventTarget | null): Member | null => {
    const group = target instanceof Element ? target.closest('[data-member]') : null;
    const name = group?.getAttribute('data-member');
    return MEMBERS.find((known) => known === name) ?? null;
  };
  const act = (target: EventTarget | null): boolean => {
    const hit = member(target);
    if (hit) props.pick?.(hit);
    return hit !== null;
  };
  return (
    <figure
      class="loop-figure"
      onClick={(event) => act(event.target)}
      onKeyDown={(event) => {
        if ((event.key === 'Enter' || event.key === ' ') && act(event.target)) event.preventDefault();
      }}
    >
      <Sheet key={String(drawing.attrs.viewBox)} drawn={drawing} />
      <figcaption class="quiet">
        Hatching and per cent: how likely the part is at fault. Double outline and “proven”: sound.
        {props.pick && ' Touch a part for the readings that speak of it.'}
      </figcaption>
    </figure>
  );
}
