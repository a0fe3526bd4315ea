/** The worker that rides the month: three batteries first, then every change that might help, which takes ten times as long. */
import { adviseRide } from '../circuit/ride-advice.ts';
import { balanceRide, type RideMachine, type RideVerdict, rideMachine } from '../circuit/ride-balance.ts';
import type { RideLife } from '../circuit/ride-legs.ts';
import { changeWords, effectWords, evenWords, levelWords, reasonWords } from '../circuit/ride-words.ts';
import type { ChargingSpec } from '../circuit/spec.ts';
import { drawChargeDay, drawChargeMonth } from '../draw/charge-curve.ts';
import type { SvgNode } from '../draw/svg.ts';

export interface RideAsk {
  readonly id: number;
  readonly spec: ChargingSpec;
  readonly life: RideLife;
  readonly shape: 'wide' | 'narrow';
}

/** How each leg stands: what is on in it against what the alternator gives, A. */
export interface RideLegLine {
  readonly name: string;
  readonly needs: number;
  readonly gives: number;
}

export type RideReply =
  | {
      readonly is: 'balance';
      readonly id: number;
      readonly verdict: RideVerdict;
      readonly reasons: readonly string[];
      readonly levels: readonly string[];
      readonly even: string | null;
      readonly legs: readonly RideLegLine[];
      readonly month: SvgNode;
      readonly day: SvgNode;
    }
  | {
      readonly is: 'advice';
      readonly id: number;
      readonly verdict: RideVerdict;
      readonly single: readonly { readonly does: string; readonly brings: string }[];
      readonly together: { readonly does: readonly string[]; readonly holds: boolean } | null;
    }
  | { readonly is: 'failure'; readonly id: number; readonly why: string };

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

/** The machine asked about last, with its tables. */
let opened: { readonly key: string; readonly machine: RideMachine } | null = null;
/** Newest ask: advice on an older one is not worth its time. */
let newest = 0;

/** A figure and its sign stay on one line. */
const whole = (words: string): string => words.replace(/(\d) (?=%|rpm|A\b|V\b)/g, '$1\u00a0');

function ride({ id, spec, life, shape }: RideAsk): void {
  const key = JSON.stringify(spec);
  if (opened?.key !== key) opened = { key, machine: rideMachine(spec) };
  const { machine } = opened;
  const found = balanceRide(machine, life);
  scope.postMessage({
    is: 'balance',
    id,
    verdict: found.verdict,
    reasons: found.reasons.map((reason) => whole(reasonWords(reason))),
    levels: levelWords(found).map(whole),
    even: found.worst === null ? null : whole(evenWords(found.worst)),
    legs: found.legs.map(({ name, needAmps, giveAmps }) => ({
      name,
      needs: needAmps,
      gives: giveAmps.likely,
    })),
    month: drawChargeMonth(found, life, shape),
    day: drawChargeDay(found, life, shape),
  } satisfies RideReply);
  // A moment for a newer ask to come in.
  setTimeout(() => {
    if (id !== newest) return;
    guarded(id, () => {
      const { single, together } = adviseRide(machine, life, found);
      scope.postMessage({
        is: 'advice',
        id,
        verdict: found.verdict,
        single: single.map((each) => ({
          does: whole(changeWords(each.change)),
          brings: whole(effectWords(each)),
        })),
        together: together && {
          does: together.changes.map((change) => whole(changeWords(change))),
          holds: together.verdict === 'holds',
        },
      } satisfies RideReply);
    });
  }, 150);
}

function guarded(id: number, work: () => void): void {
  try {
    work();
  } catch (error) {
    const why = `This ride cannot be reckoned: ${error instanceof Error ? error.message : String(error)}`;
    scope.postMessage({ is: 'failure', id, why } satisfies RideReply);
  }
}

scope.addEventListener('message', ({ data }: MessageEvent<RideAsk>) => {
  newest = data.id;
  guarded(data.id, () => ride(data));
});
