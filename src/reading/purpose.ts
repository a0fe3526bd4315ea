/** What each kind of reading is for, and where a hand goes wrong at it. Common practice, no source. */

export interface Purpose {
  /** What it tells, in a sentence. */
  readonly tells: string;
  /** What to watch for while it is taken. */
  readonly watch: string;
}

const POST_TIPS =
  'One tip on the post itself, the other on the clamp: both on the clamp show nothing. It shows only while current flows.';
const BACK_PROBE = 'Back-probe from the wire side: a tip pushed into the face of a pin spreads it.';

export const PURPOSES: Readonly<Record<string, Purpose>> = {
  rest_volts: {
    tells: 'How full the battery is.',
    watch:
      'Soon after a ride or a charge it reads high: wait the hour. It says nothing of strength: a worn battery can show full volts.',
  },
  keyon_volts: {
    tells: 'What is left of the battery’s volts when ignition and lamps draw from it.',
    watch: 'The figure goes on falling: read it after the same ten seconds each time.',
  },
  load_test_volts: {
    tells: 'Whether the battery can give its amps.',
    watch: 'Say whether it was charged first: half empty, a good battery reads like a bad one.',
  },
  crank_volts: {
    tells: 'How the battery and its joints stand up to the starter’s current.',
    watch:
      'At the posts it speaks of the battery alone; at the clamps the two joints are in it as well. Say which.',
  },
  keyoff_mA: {
    tells: 'What goes on drawing from the battery while the bike stands.',
    watch:
      'Turning the key blows the meter’s fuse, and a meter with a blown fuse shows 0: it looks like a perfect bike.',
  },
  capacity_minutes: {
    tells: 'How much a full battery really holds.',
    watch: 'Begun with a battery that is not full, the minutes are worth nothing.',
  },
  sg: {
    tells: 'The state of each cell by itself: one much lower than the others is a bad cell.',
    watch: 'Only for a battery with caps. Not right after water was added.',
  },
  drop_term_pos: { tells: 'What the joint between + post and clamp loses.', watch: POST_TIPS },
  drop_term_neg: { tells: 'What the joint between − post and clamp loses.', watch: POST_TIPS },
  batt_volts: {
    tells: 'Whether charge reaches the battery at this speed and with these lights.',
    watch: 'Speed and lights decide the figure: enter them as they were, not as they were meant to be.',
  },
  reg_volts: {
    tells:
      'Held against the battery volts in the same state, it tells a weak regulator from a way that loses volts.',
    watch: 'At the regulator’s own terminals. The battery end of the same wire is another reading.',
  },
  drop_pos: {
    tells: 'What joint, wire, breaker and post lose together on the plus side.',
    watch: 'Without charge current a bad joint shows nothing.',
  },
  drop_neg: {
    tells: 'What the ground side loses between the battery and the regulator.',
    watch: 'Paint or rust under a tip reads like a bad ground: find clean metal.',
  },
  drop_breaker: {
    tells: 'What the main breaker or fuse loses, with both its ends.',
    watch: 'Tips on the terminals of the wires, not on the body of the breaker.',
  },
  drop_dcplug: { tells: 'What the joint in the regulator’s output lead loses by itself.', watch: BACK_PROBE },
  drop_sense: {
    tells: 'What the regulator does not see: it charges too high by this much.',
    watch: 'Only on a bike whose regulator senses through a wire of its own.',
  },
  plug_drop_ac: {
    tells: 'Whether one pin of the stator plug is burnt, without unplugging it.',
    watch: BACK_PROBE,
  },
  ripple: {
    tells: 'How much AC is left on the battery: a rectifier device that has failed leaves more.',
    watch: 'AC range, at the battery’s posts. Cheap meters differ widely here.',
  },
  batt_amps: {
    tells: 'Whether the battery gains or loses, and how much.',
    watch:
      'A wire of that post left outside the clamp is left out of the figure. The arrow decides the sign.',
  },
  alt_amps: {
    tells: 'What the regulator gives to battery and loads together.',
    watch: 'Zero the clamp beside the wire, not on the bench.',
  },
  phase_amps: {
    tells:
      'What each stator lead carries: one lead lower than its neighbours points at that winding, pin or device.',
    watch: 'One lead alone in the clamp: two together cancel in part.',
  },
  stator_ac: {
    tells: 'Stator and rotor by themselves, with nothing joined to them.',
    watch: 'Take all pairs at the same speed. The difference between them tells as much as the figure.',
  },
  pin_case_ac: {
    tells: 'Whether a winding touches the core while it is driven.',
    watch: 'A good meter shows stray volts on a sound winding: the 220 Ω resistor tells them from a short.',
  },
  ohms_pair: {
    tells: 'Whether a winding is open; with the plug mated, whether the plug is.',
    watch:
      'Enter what the meter shows, leads and all: the program allows for leads. Shorted turns do not show here: the winding is of a few tenths of an ohm.',
  },
  mv_pair: {
    tells: 'The winding’s true resistance: at 1 A a milliohm shows as a millivolt.',
    watch:
      'Tips inside the clips of the supply, or the clips are measured too. Left on, it warms the winding.',
  },
  ohms_case: {
    tells: 'Whether a winding touches the core while it stands still.',
    watch: 'Fingers on both tips read as a leak. Some windings touch only when hot.',
  },
  diode: {
    tells: 'Whether a device inside the regulator is open or shorted.',
    watch: 'Which lead is red decides the answer.',
  },
  visual: {
    tells: 'What no meter shows, in a minute.',
    watch: 'Seen and looked at but not found are both worth entering.',
  },
};
