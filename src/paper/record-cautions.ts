/** Cautions that this job met: those of the steps done and of the readings taken, each once. */

import { checkKey, completeKey, KINDS } from '../reading/catalogue.ts';
import { sayHow } from '../reading/cautions.ts';
import type { Block } from './document.ts';
import { heading } from './make-block.ts';
import type { Recorded } from './record.ts';

export function cautionsMet({ state, bench }: Pick<Recorded, 'state' | 'bench'>): readonly string[] {
  const ofSteps = bench.touched.flatMap(
    ({ step, action, phase }) => (phase === 'in' ? action?.entry.caution : step?.caution) ?? [],
  );
  const ofReadings = [...state.readings, ...state.proof.readings].flatMap(({ key }) => {
    const checked = checkKey(key);
    const kind = checked.ok ? KINDS[checked.key.kind] : undefined;
    return checked.ok && kind ? sayHow(kind, completeKey(checked.key).state).cautions : [];
  });
  return [...new Set([...ofReadings, ...ofSteps])];
}

export function cautionBlocks(of: Recorded): readonly Block[] {
  const met = cautionsMet(of);
  if (met.length === 0) return [];
  return [heading(1, 'Cautions'), ...met.map((text): Block => ({ kind: 'caution', text }))];
}
