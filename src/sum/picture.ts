/** What the drawing that explains a result needs: lengths in m, torques in N·m, angles in rad; words are printed already. */
interface Interval {
  readonly low: number;
  readonly high: number;
}

export type Picture =
  | {
      readonly kind: 'lever';
      readonly length: number;
      readonly adapter: number;
      readonly angle: number;
      readonly set: string;
      readonly torque: string;
    }
  | {
      readonly kind: 'wrench-ranges';
      /** What each wrench can be trusted with at the screw, and its best part, N·m. */
      readonly rows: readonly {
        readonly name: string;
        readonly low: number;
        readonly high: number;
        readonly best: { readonly low: number; readonly high: number } | null;
        readonly taken: boolean;
      }[];
      /** Torque at the screw, drag included, N·m. */
      readonly target: number;
      readonly words: string;
    }
  | {
      readonly kind: 'screw-hole';
      /** Lengths from the face of the tapped part, m; `reach` is how far the screw goes in. */
      readonly diameter: number;
      readonly pitch: number;
      readonly length: number;
      readonly clamped: number;
      readonly reach: number;
      readonly chamfer: number;
      readonly threadDepth: number | null;
      readonly holeDepth: number | null;
      readonly bottoms: boolean;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'bolt-map';
      readonly places: readonly { readonly x: number; readonly y: number }[];
      readonly order: readonly number[];
      /** What is written at each screw, such as its length; left out for nothing. */
      readonly labels?: readonly string[];
    }
  | {
      readonly kind: 'slack';
      readonly centre: number;
      /** Pitch radii of both sprockets. */
      readonly radii: readonly [number, number];
      /** Whole movement of the strand. */
      readonly now: number;
      /** What is said beside it, the weightiest first. */
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'lift';
      readonly halfWidth: number;
      /** From the bike's middle to the hand, and the hand above the support. */
      readonly offset: number;
      readonly height: number;
      readonly way: 'down' | 'up' | 'sideways' | 'along';
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'shim-stack';
      /** From the bottom up, each shim on its own. */
      readonly shims: readonly { readonly thickness: number; readonly words: string }[];
      readonly total: string;
      readonly wanted: string;
      readonly fits: boolean;
    }
  | {
      readonly kind: 'torque-steps';
      /** Torque at the screw, N·m, and what is written at its step, the weightier first. */
      readonly steps: readonly {
        readonly torque: number;
        readonly words: readonly [string, string];
        readonly falls: boolean;
      }[];
    }
  | {
      readonly kind: 'pulled-bolt';
      readonly diameter: number;
      /** Thread engaged in what it is tapped into; null where a nut is drawn. */
      readonly engaged: number | null;
      /** Preload as a share of the proof load, dimensionless. */
      readonly share: Interval;
      /** Share that is wanted, dimensionless; null where none is. */
      readonly wanted: number | null;
      /** What the bar of the share is of. */
      readonly bar: string;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'chain-loop';
      readonly pitch: number;
      readonly centre: number;
      readonly radii: readonly [number, number];
      readonly teeth: readonly [number, number];
      /** Pitches of the chain; a half link is the odd one. */
      readonly links: number;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'worn-chain';
      /** Wear at the limit and as measured, dimensionless: 0.02 is 2 % longer; null where nothing is measured. */
      readonly limit: number;
      readonly wear: Interval | null;
      readonly pitches: number;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'clock';
      /** From when each thing may be done, s after it went on. */
      readonly rows: readonly { readonly name: string; readonly words: string; readonly from: Interval }[];
      readonly now: number | null;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'undo-or-break';
      /** Torques, N·m. */
      readonly undo: Interval;
      readonly breaks: Interval;
      readonly fitted: number;
      readonly words: readonly [undo: string, breaks: string, fitted: string];
    }
  | {
      readonly kind: 'power-balance';
      /** What comes from the alternator, A, from the hot to the cold figure. */
      readonly rows: readonly { readonly name: string; readonly words: string; readonly amps: Interval }[];
      readonly need: number;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'lock-bar';
      readonly radius: number;
      readonly teeth: number;
      readonly gear: boolean;
      readonly loosen: boolean;
      /** Share of the strength of the chain and the most it may be, dimensionless; null where it is not known. */
      readonly share: { readonly value: number; readonly most: number } | null;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'stack-up';
      /** In the order entered; a part that takes away has a minus. */
      readonly parts: readonly { readonly low: number; readonly high: number; readonly words: string }[];
      readonly worst: Interval;
      readonly likely: Interval;
      readonly wanted: Interval | null;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'slack-turn';
      /** Where along the chain each was read, share of its loop 0–1, and the slack there. */
      readonly readings: readonly { readonly at: number; readonly slack: number; readonly odd: boolean }[];
      readonly tightest: number;
      /** Share of the loop that was covered, dimensionless; null where the places are not known. */
      readonly covered: number | null;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'wire-way';
      /** What the wire passes, in its order. */
      readonly points: readonly string[];
      readonly words: string;
    }
  | {
      readonly kind: 'wire-run';
      /** m². */
      readonly section: number;
      readonly words: {
        readonly wire: string;
        readonly length: string;
        readonly current: string;
        readonly drop: string;
        readonly solved: 'gauge' | 'length' | 'current' | 'drop';
      };
    };
