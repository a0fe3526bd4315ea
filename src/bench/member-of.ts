/** Which member of the charging loop a step is about, in the words of the drawing; null for the rest of the bike. */
import type { Machine } from '../machine/definition.ts';
import { askedBy, type StepPlace } from './place.ts';

/** Word of a member, such as `stator-plug`; null where the step is about none that the file tells of. */
export function memberOf(machine: Pick<Machine, 'work'>, place: StepPlace): string | null {
  if (askedBy(place).includes('plug')) return 'stator-plug';
  if (place.phase === 'bottom') {
    const target = Object.values(machine.work?.targets ?? {}).find(({ work }) =>
      work?.some(({ id }) => id === place.id),
    );
    // A repair is named by what is done and to which member: "remake-output-joint".
    return target?.repairs?.[0]?.replace(/^[a-z]+-/, '') ?? null;
  }
  return place.action?.entry.part ?? null;
}
