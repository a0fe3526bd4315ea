/**
 * The blunder check: a machine file read the way an old mechanic reads a stranger's notes. Each rule is a pure function
 * from what the file says to findings; a figure that is missing takes a rule's teeth and nothing else. Limits are wide,
 * each with its reason where it stands. Nothing is corrected, and nothing here keeps a file from being saved.
 */
import { chargingFindings } from './blunder-charging.ts';
import { chainFindings, fluidFindings, shimFindings } from './blunder-drive.ts';
import { directionFindings, lockerFindings, placeFindings, stageFindings } from './blunder-fastening.ts';
import { lengthFindings } from './blunder-length.ts';
import { partFindings } from './blunder-parts.ts';
import { dateFindings, sourceFindings } from './blunder-sources.ts';
import { torqueFindings } from './blunder-torque.ts';
import { workFindings } from './check-work.ts';
import { contradictions } from './contradict.ts';
import type { Fastener, Machine } from './definition.ts';
import { knowFastener } from './fastener-known.ts';
import { type Finding, worstFirst } from './finding.ts';
import { memberPath } from './problem.ts';

/** A machine of which some sections may be unreadable: those are null, and the others are checked. */
export type Checkable = {
  readonly [K in Exclude<keyof Machine, '$schema' | 'version' | 'sources'>]: Machine[K] | null;
} & { readonly sources: Machine['sources'] };

/**
 * Every finding, worst first. Some milliseconds, so an editor may call it at each keystroke. `thisYear` is the year of
 * the caller's clock; without it no date is too late.
 */
export function checkMachine(machine: Checkable, thisYear: number | null = null): readonly Finding[] {
  const out: Finding[] = [...circuit(machine)];
  for (const [id, fastener] of Object.entries(machine.fasteners ?? {}))
    out.push(...fastenerFindings(machine, memberPath('$.fasteners', id), fastener));
  for (const [id, chain] of Object.entries(machine.chains ?? {}))
    out.push(...chainFindings(machine, memberPath('$.chains', id), chain));
  for (const [id, shims] of Object.entries(machine.shims ?? {}))
    out.push(...shimFindings(machine, memberPath('$.shims', id), shims));
  for (const [id, fluid] of Object.entries(machine.fluids ?? {}))
    out.push(...fluidFindings(machine, memberPath('$.fluids', id), fluid));
  out.push(
    ...partFindings(machine),
    ...sourceFindings(machine),
    ...dateFindings(machine, thisYear),
    ...workFindings(machine, thisYear),
  );
  return worstFirst(out);
}

function circuit(machine: Checkable): readonly Finding[] {
  const { about, charging } = machine;
  if (about === null || charging === null) return [];
  const whole = { ...machine, $schema: null, version: 1, about, charging } as Machine;
  const against = contradictions(whole).map(({ path, what, fix }): Finding => {
    const [head, ...rest] = what.split(': ');
    const why = rest.length > 0 ? rest.join(': ') : 'These figures cannot all be true';
    return { level: 'impossible', topic: 'contradiction', path, what: head!, why, lookUp: fix };
  });
  // The rules below reckon with the figures, which must not contradict one another.
  return against.length > 0 ? against : chargingFindings(whole);
}

function fastenerFindings(machine: Checkable, path: string, fastener: Fastener): readonly Finding[] {
  const { known, findings } = knowFastener(machine, path, fastener);
  const out: Finding[] = [...findings];
  // What a sheet says is judged as well, before the part is fitted and the figure counts.
  const torques = [fastener.torque, ...(fastener.torque?.also ?? [])];
  torques.forEach((said, n) => {
    const at = `${path}.torque${n === 0 ? '' : `.also[${n - 1}]`}.is`;
    if (said) out.push(...torqueFindings(known, said.is, at));
  });
  if (!fastener.torque) {
    const last = (fastener.stages ?? []).length - 1;
    const stage = fastener.stages?.[last];
    if (stage) out.push(...torqueFindings(known, stage.is, `${path}.stages[${last}].is`));
  }
  out.push(
    ...stageFindings(machine, known),
    ...lengthFindings(known),
    ...lockerFindings(machine, known),
    ...directionFindings(machine, known),
    ...placeFindings(known),
  );
  return out;
}
