/** What the members of the loop are called. */
import type { Member } from '../fault/catalogue.ts';

export const MEMBER_NAMES: Readonly<Record<Member, string>> = {
  rotor: 'rotor',
  stator: 'stator',
  'stator-plug': 'stator plug',
  regulator: 'regulator',
  'output-joint': 'output joint',
  'output-wire': 'output wire',
  breaker: 'breaker',
  'positive-post': 'positive post',
  battery: 'battery',
  'negative-post': 'negative post',
  ground: 'ground',
  'sense-wire': 'sense wire',
  loads: 'loads',
  drain: 'key-off drain',
};
