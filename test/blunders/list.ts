/** Every plant and every sound file. */
import { CIRCUIT_PLANTS } from './plants-circuit.ts';
import { DRIVE_PLANTS } from './plants-drive.ts';
import { FASTENING_PLANTS } from './plants-fastening.ts';
import { SECOND_PLANTS } from './plants-second.ts';
import { STRANGER_PLANTS } from './plants-stranger.ts';
import { TORQUE_PLANTS } from './plants-torque.ts';
import { WORK_PLANTS } from './plants-work.ts';
import { JOINT_SOUNDS } from './sounds-joints.ts';
import { REST_SOUNDS } from './sounds-rest.ts';
import { SECOND_SOUNDS } from './sounds-second.ts';
import { STRANGER_SOUNDS } from './sounds-stranger.ts';

export const PLANTS = [
  ...TORQUE_PLANTS,
  ...FASTENING_PLANTS,
  ...CIRCUIT_PLANTS,
  ...DRIVE_PLANTS,
  ...SECOND_PLANTS,
  ...WORK_PLANTS,
  ...STRANGER_PLANTS,
];
export const SOUNDS = [...JOINT_SOUNDS, ...REST_SOUNDS, ...SECOND_SOUNDS, ...STRANGER_SOUNDS];
