/** Members of the machine file as a mechanic would say them, where the key itself does not read well. */
const SAID: Readonly<Record<string, string>> = {
  is: 'Figure',
  at: 'At which engine speed',
  from: 'Who says so',
  page: 'Page',
  date: 'When',
  note: 'Remark',
  also: 'What others say',
  openVolts: 'AC volts, unplugged',
  ratedAmps: 'Rated amps',
  pairOhms: 'Winding, pin to pin',
  pins: 'Pins of the stator plug',
  poles: 'Magnet poles',
  type: 'How it regulates',
  chargeVolts: 'Charging volts',
  senses: 'Where it senses',
  chemistry: 'Kind of battery',
  crankAmps: 'Cranking amps',
  low: 'Low beam',
  high: 'High beam',
  tail: 'Tail and instrument lamps',
  ignition: 'Ignition, pump, instruments',
  loadsFedFrom: 'What feeds the loads',
  restDrain: 'Drain with the key off',
  tachometer: 'Has a tachometer',
  ohms: 'Resistance',
  gauge: 'Wire size',
  maker: 'Maker',
  invented: 'Invented bike',
  heldBy: 'Held by',
  blockedBy: 'Comes off after',
  part: 'Part it holds',
  threadDepth: 'Depth of full thread',
  threadLength: 'Length of thread',
  does: 'What is done',
  gives: 'State afterwards',
  needs: 'State needed first',
  basePercent: 'Chance of not letting go, in 100',
  asks: 'What is written down',
  fitted: 'On the bike now',
  for: 'The part it came with',
  kind: 'Kind',
  bare: 'Play without shims',
  uses: 'What it uses up',
  lags: 'Curing and time limits',
  least: 'At least this long after',
  most: 'At most',
  back: 'Putting it back',
  work: 'Work at the bottom',
  repairs: 'Repairs it serves',
  life: 'How long it lasts',
  spoils: 'What else its failure costs',
};

/** A member's name, such as "AC volts, unplugged". */
export function fieldWords(key: string): string {
  const said = SAID[key];
  if (said !== undefined) return said;
  const words = key.replace(
    /([a-z])([A-Z])/g,
    (_, end: string, start: string) => `${end} ${start.toLowerCase()}`,
  );
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Which section's ids a member names; null where it is a text of its own. */
export function idsOf(key: string): readonly string[] | null {
  return NAMES[key] ?? null;
}
const NAMES: Readonly<Record<string, readonly string[]>> = {
  heldBy: ['fasteners'],
  fastener: ['fasteners'],
  plug: ['fasteners'],
  blockedBy: ['parts'],
  part: ['parts'],
  chain: ['chains'],
  shims: ['shims'],
  fluid: ['fluids'],
  tools: ['work', 'tools'],
  supply: ['work', 'supplies'],
};

/** Sources by kind, for people. */
export const SOURCE_WORDS: Readonly<Record<string, string>> = {
  book: 'book',
  'part-sheet': "part's own sheet",
  measured: 'measured',
  'common-practice': 'common practice',
  guess: 'guess',
};
