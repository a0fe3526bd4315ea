/** Every torque that was signed, and the steps that were ticked without one. */
import { hasTorque, sayTorqueRecord } from '../bench/say-torque.ts';
import type { BenchRecord } from '../job/bench-fold.ts';
import type { Block } from './document.ts';
import { stepWords } from './job-bench.ts';
import { heading, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { sayWhen } from './wall-time.ts';

export function torqueBlocks(of: Recorded): readonly Block[] {
  const { state, bench } = of;
  const signed = state.bench.records.filter(({ ask }) => ask === 'torque');
  const unsigned = [...bench.places.values()].filter(({ id }) => {
    const asking = bench.askingOf(id);
    return (
      bench.done.has(id) && asking !== null && hasTorque(asking) && !signed.some(({ step }) => step === id)
    );
  });
  return [
    heading(1, 'Torques'),
    ...(signed.length === 0
      ? [words('No torque was signed.')]
      : [
          {
            kind: 'rows' as const,
            caption: 'Torques signed, in the order in which they were signed',
            head: ['Fastener', 'Wanted', 'Wrench and setting', 'The screw got', 'Signed'],
            rows: signed.map((record) => row(of, record, signed)),
          },
        ]),
    ...(unsigned.length > 0
      ? [
          words(
            `Ticked as done without a torque signed: ${unsigned.map(({ id }) => stepWords(bench.places, id)).join('; ')}.`,
          ),
        ]
      : []),
  ];
}

function row({ bench, east }: Recorded, record: BenchRecord, signed: readonly BenchRecord[]) {
  const asking = bench.askingOf(record.step);
  const { wanted, how, got } = sayTorqueRecord(asking, record);
  const again = signed.some((other) => other.step === record.step && other.event > record.event);
  return [
    asking?.fastener?.fastener.name ?? stepWords(bench.places, record.step),
    wanted,
    how,
    got,
    `${sayWhen(record, east)}${again ? '; signed again later' : ''}`,
  ];
}
