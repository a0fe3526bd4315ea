/** What each repair cures, in a few words. */
import type { RepairId } from '../fault/catalogue.ts';

/** What a repair cures, as it goes after "with". */
const TROUBLE: Readonly<Record<RepairId, string>> = {
  'charge-battery': 'a battery that is only flat',
  'replace-battery': 'a dead battery',
  'remake-positive-post': 'a bad joint at the + post',
  'remake-negative-post': 'a bad joint at the − post',
  'remake-output-joint': 'a bad output joint',
  'remake-ground': 'a bad regulator ground',
  'remake-breaker': 'a bad breaker or fuse joint',
  'replace-stator-plug': 'a burnt stator plug',
  'replace-stator': 'a dead stator',
  'replace-rotor': 'a weak rotor',
  'replace-regulator': 'a dead regulator',
  'remake-sense-wire': 'a bad sense wire',
  'find-drain': 'a key-off drain',
  'reduce-load': 'too much load',
  'replace-output-wire': 'too thin an output wire',
};

/** What a suspect is, to go after "with": "a dead regulator". */
export function troubleOf(repair: RepairId): string {
  return TROUBLE[repair];
}
