/**
 * A scripted answerer for tests of the player: it knows the truth of the cases (it looks it up by id, which a real
 * answerer must never do), asks a fixed checklist and answers right or wrong as a hash of the id says, with odd
 * probabilities so that no printed figure falls on a tie. Usage: node fake-answerer.mjs CASES.jsonl
 */
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';

const truths = new Map(
  readFileSync(process.argv[2], 'utf8')
    .split('\n')
    .filter(Boolean)
    .map((line) => {
      const { id, truth } = JSON.parse(line);
      return [id, truth];
    }),
);
// Keys with words left out, words in another order, states that no table has, and a kind that no bike has.
const CHECKLIST = [
  'rest_volts',
  'batt_volts rpm=5000 lights=high',
  'batt_volts lights=high rpm=5000',
  'keyoff_mA',
  'batt_amps rpm=2000',
  'ohms_pair pair=ab',
  'stator_ac pair=ab rpm=3000 temp=hot',
  'stator_ac pair=bc',
  'ripple',
  'drop_pos temp=hot rpm=9000',
  'visual what=plug_burnt',
  'ohms_case pin=b',
  'diode red=a black=pos',
  'sg cell=3',
  'no_such_kind',
  'rest_volts charged=True',
  'crank_volts probe=clamp',
  'capacity_minutes',
  'pin_case_ac pin=c loaded=True',
  'drop_neg lights=off rpm=idle',
  'alt_amps',
];
const hash = (text) => {
  let h = 2166136261;
  for (const letter of text) h = Math.imul(h ^ letter.charCodeAt(0), 16777619) >>> 0;
  return h / 4294967296;
};

createInterface({ input: process.stdin }).on('line', (line) => {
  const { id, readings, tried } = JSON.parse(line);
  const { faults, repairs } = truths.get(id);
  const asked = Object.keys(readings);
  const length = 6 + Math.floor(hash(`${id} length`) * (CHECKLIST.length - 6));
  const fresh = asked.length < length ? CHECKLIST[asked.length] : null;
  // Some cases take their fifth reading again, twice.
  const again = fresh === null && hash(`${id} again`) < 0.5 && tried.length < 2 ? asked[4] : null;
  const next = fresh ?? again;
  const right = hash(`${id} right`) < 0.7;
  const p = 0.507 + 0.4913 * hash(`${id} p`);
  const set = right ? faults : [...faults.slice(1), 'rotor_weak'];
  console.log(
    JSON.stringify({
      id,
      sets: [
        { faults: [], p: 0.0371 },
        { faults: set, p },
        { faults: ['breaker'], p: 0.9629 - p },
      ],
      repairs: [
        ...(right ? repairs : [...repairs.slice(1), 'rotor']).map((repair) => ({
          repair,
          p: right ? 0.9937 : p,
          do: true,
        })),
        { repair: 'breaker', p: hash(`${id} breaker`) * 0.3, do: false },
        { repair: 'sense_wire', p: hash(`${id} sense`) ** 6, do: hash(`${id} sense`) > 0.97 },
      ],
      next: next === null ? null : { key: next, minutes: 1, why: 'it is next on the list' },
      doubtful:
        hash(`${id} doubt ${asked.length}`) < 0.06 && asked.length > 2
          ? asked.slice(2, 5).map((key) => ({ key, p: 0.9 }))
          : [],
      noneOfThese: 0.01,
    }),
  );
});
