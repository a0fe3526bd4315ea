/**
 * Sum: what a run of copper wire loses: gauge, length, current and drop, any one from the other three.
 * R = ρ·l/A, ρ 1.7241×10⁻⁸ Ω·m at 20 °C and 0.393 % more a kelvin (International Annealed Copper Standard, as in NBS
 * Handbook 100); American gauge d = 0.127 mm·92^((36 − n)/39) (ASTM B258).
 */
import { awgSection, COPPER_OHM_METRES, COPPER_PER_KELVIN } from '../circuit/wire.ts';
import { parseQuantity } from '../units/parse.ts';
import { type Entries, field, openEntries } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const COLD = 293.15;
const SOLVED = ['gauge', 'length', 'current', 'drop'] as const;
const only = (value: number) => ({ low: value, high: value });

const FIELDS = [
  field('gauge', 'Wire, gauge or section of its copper', 'text', 'solve', 'AWG 14'),
  field('length', 'Length of the wire, there and back if both are meant', 'length', 'solve', '1.5 m'),
  field('current', 'Current', 'current', 'solve', '20 A'),
  field('drop', 'Volts it may lose', 'voltage', 'solve', '0.2 V'),
  field('temperature', 'Temperature of the wire', 'temperature', 'may', '20–60 °C', '20–60 °C'),
];

/** Section of the copper, m². */
function sectionOf(read: Entries): number | null {
  const text = read.text('gauge');
  if (text === '') return null;
  const awg = /^(?:awg\s*(\d{1,2})|(\d{1,2})\s*(?:awg|ga|gauge))$/i.exec(text);
  if (awg) {
    const n = Number(awg[1] ?? awg[2]);
    return n <= 36 ? awgSection(n) : read.blame('gauge', `AWG ${n} is finer than any here: AWG 0 to AWG 36.`);
  }
  const area = parseQuantity(text, 'area');
  if (!area.ok)
    return read.blame('gauge', `"${text.slice(0, 40)}" is no size of wire: write e.g. AWG 14 or 2.5 mm².`);
  const { si } = area.value;
  return si >= 1e-8 && si <= 1e-4
    ? si
    : read.blame('gauge', `${text} is no size of wire here: it must be 0.01 mm² to 100 mm².`);
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  const section = sectionOf(read);
  const length = read.one('length', { above: 0, most: 100 });
  const current = read.one('current', { above: 0, most: 1000 });
  const drop = read.one('drop', { above: 0, most: 1000 });
  const heat = read.span('temperature', { least: COLD - 60, most: COLD + 180 }) ?? { low: COLD, high: COLD };
  const missing = SOLVED.filter((id) => read.empty(id));
  if (missing.length !== 1)
    read.blame(
      null,
      missing.length === 0
        ? 'Gauge, length, current and drop are all entered: leave one empty, it is worked out.'
        : `Three of gauge, length, current and drop are needed: enter ${missing.slice(0, -1).join(' and ')}.`,
    );
  const bad = read.refused();
  if (bad) return bad;
  const rho = (kelvin: number) => COPPER_OHM_METRES * (1 + COPPER_PER_KELVIN * (kelvin - COLD));
  const [cold, hot] = [rho(heat.low), rho(heat.high)];
  const lines: Line[] = [];
  const solvedFor = missing[0]!;
  let thickest = 0;
  if (section === null) {
    const need = { low: (cold * length! * current!) / drop!, high: (hot * length! * current!) / drop! };
    thickest = need.high;
    lines.push(figureLine('gauge', 'Section', 'area', need, 2, (f) => `It takes ${f} of copper.`));
    const awg = Array.from({ length: 37 }, (_, i) => 36 - i).find((n) => awgSection(n) >= need.high);
    lines.push(
      wordLine(
        'awg',
        'American gauge',
        awg === undefined ? 'none' : `AWG ${awg}`,
        awg === undefined
          ? 'That is thicker than AWG 0: take two runs or a shorter way.'
          : `The thinnest American gauge that does it is AWG ${awg}.`,
      ),
    );
  } else if (length === null)
    lines.push(
      figureLine(
        'length',
        'Length',
        'length',
        { low: (drop! * section) / (hot * current!), high: (drop! * section) / (cold * current!) },
        2,
        (f) => `It may be ${f} long.`,
      ),
    );
  else {
    const ohms = { low: (cold * length) / section, high: (hot * length) / section };
    lines.push(
      figureLine('resistance', 'Resistance', 'resistance', ohms, 2, (f) => `The wire alone has ${f}.`),
    );
    if (current === null)
      lines.unshift(
        figureLine(
          'current',
          'Current',
          'current',
          { low: drop! / ohms.high, high: drop! / ohms.low },
          2,
          (f) => `That drop means ${f}.`,
        ),
      );
    else {
      const lost = { low: ohms.low * current, high: ohms.high * current };
      lines.unshift(figureLine('drop', 'Drop', 'voltage', lost, 2, (f) => `It loses ${f}.`));
      lines.push(
        figureLine(
          'heat',
          'Heat',
          'power',
          { low: lost.low * current, high: lost.high * current },
          2,
          (f) => `It makes ${f} of heat along its length.`,
        ),
      );
    }
  }
  const found = lines.find(({ id }) => id === solvedFor)!;
  const worked = found.metric === found.inch ? found.metric : `${found.metric} (${found.inch})`;
  return {
    ok: true,
    lines,
    cautions: ['Joints, plugs and fuses come on top, and often lose more than the wire.', BOOK_WINS],
    picture: {
      kind: 'wire-run',
      section: section ?? thickest,
      words: {
        wire: section === null ? `copper ${worked}` : `wire ${read.text('gauge').slice(0, 20)}`,
        length: `length ${length === null ? worked : shown('length', only(length))}`,
        current: `current ${current === null ? worked : shown('current', only(current))}`,
        drop: `${drop === null ? 'loses' : 'may lose'} ${drop === null ? worked : shown('voltage', only(drop))}`,
        solved: solvedFor,
      },
    },
    solvedFor,
  };
}

export const WIRE: Sum = {
  id: 'wire',
  words: 'Wire',
  about: 'volts a run of copper wire loses, or the gauge it takes',
  fields: FIELDS,
  example: { gauge: 'AWG 14', length: '1.5 m', current: '20 A' },
  reckon,
};
