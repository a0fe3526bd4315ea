/** Planted blunders in the way in. */
import { put } from './edit.ts';
import { type Plant, plant } from './score.ts';

const WORK = 'the way in';
const a = (rest: string) => `work/actions/${rest}`;

export const WORK_PLANTS: readonly Plant[] = [
  plant(
    WORK,
    'a tool that nobody has',
    'ardmoor',
    put(a('straightedge/tools'), ['straightedgee']),
    /straightedge\.tools/,
    /no tool/,
  ),
  plant(
    WORK,
    'a fact misspelt',
    'ardmoor',
    put(a('stator-screws/needs'), ['rotr off']),
    /stator-screws/,
    /nothing makes/,
  ),
  plant(
    WORK,
    'a cover that needs itself off',
    'ardmoor',
    put(a('cover-off/needs'), ['primary-cover off']),
    /targets/,
    /no way to/,
  ),
  plant(
    WORK,
    'a fastener of another bike',
    'pemburrow',
    put(a('rotor-bolt/fastener'), 'engine-sprocket-nut'),
    /rotor-bolt/,
    /no fastener/,
  ),
  plant(
    WORK,
    'likely longer than longest',
    'oskerlund',
    put(a('pedal-off/likely'), '40 min'),
    /pedal-off.*likely/,
    /outside its range/,
  ),
  plant(
    WORK,
    'a part that is not on the bike',
    'oskerlund',
    put(a('stator-off/part'), 'statr'),
    /stator-off.*part/,
    /no part/,
  ),
];
