/** Line mode: one JSON object in, one out, in order. A bad line is answered with one clear sentence and the next one is read. */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { Value } from '../reading/key.ts';
import type { Answer, Evidence } from '../verdict/answer.ts';
import { type Assessor, openAssessor } from '../verdict/assess.ts';
import { faultName, repairName } from './exchange.ts';
import { type Fields, flagAt, objectAt, shown, wordsAt } from './field.ts';
import { canonicalKey, readingValue } from './key-words.ts';
import { specOfNameplate } from './nameplate.ts';

/** Opens an assessor for a bike. */
export type OpenAssessor = (spec: ChargingSpec) => Assessor;

/** Answers lines; keeps what it has worked out for the bikes seen last. */
export interface LineMode {
  /** The answer to one line, without the line's end. Never throws for what the line says. */
  readonly answer: (text: string) => string;
}

/** Bikes whose assessor is kept: the lines of a case come one after another, perhaps a few cases mixed. */
const KEPT = 4;
/** Steps of preparing a new bike: some 250 ms, for the engine states that most readings are taken in. */
const WARMED = 265;
/** Fault sets less probable than this are left out of an answer: no score and no reader looks at them. */
const LEAST_SET = 1e-6;
const TOOLS = ['clamp', 'loadTester', 'tachometer', 'hydrometer', 'supply'];

/** A line understood. */
interface Question {
  readonly spec: ChargingSpec;
  readonly evidence: Evidence;
  /** How the line itself wrote each canonical key. */
  readonly written: ReadonlyMap<string, string>;
}

/** An assessor that has worked ahead: a new bike may take its time, every answer after the first may not. */
function openReady(spec: ChargingSpec): Assessor {
  const assessor = openAssessor(spec);
  for (let n = 0; n < WARMED && assessor.warm(); n++);
  return assessor;
}

/** Opens the line mode. Another `open` is for tests. */
export function openLineMode(open: OpenAssessor = openReady): LineMode {
  const assessors = new Map<string, Assessor>();
  const assessorFor = (spec: ChargingSpec): Assessor => {
    const name = JSON.stringify(spec);
    const assessor = assessors.get(name) ?? open(spec);
    // Put last again, so that the one not asked for longest is dropped first.
    assessors.delete(name);
    assessors.set(name, assessor);
    if (assessors.size > KEPT) assessors.delete(assessors.keys().next().value!);
    return assessor;
  };
  const answer = (text: string): string => {
    let id: unknown = null;
    try {
      const line = parseLine(text);
      id = line.id ?? null;
      const question = understand(line);
      const found = assessorFor(question.spec).assess(question.evidence);
      return JSON.stringify(written(id, found, question.written));
    } catch (error) {
      // What the line says wrongly is a RangeError with its sentence. Anything else is our own fault: said as such,
      // because one case that fails must not lose the thousand after it.
      const message = error instanceof Error ? error.message : String(error);
      const own =
        error instanceof RangeError
          ? message
          : `The verdict failed on this line (${message}); please report it.`;
      return JSON.stringify({ id, error: own.replace(/\s+/g, ' ') });
    }
  };
  return { answer };
}

/** Answers a single line with nothing kept. */
export function answerLine(text: string, open: OpenAssessor = openAssessor): string {
  return openLineMode(open).answer(text);
}

/** Answers lines in order; blank ones are passed over. `write` gets each answer with its line end. */
export async function runLines(
  input: AsyncIterable<string>,
  write: (text: string) => void | Promise<void>,
  mode: LineMode = openLineMode(),
): Promise<void> {
  for await (const line of input) {
    if (line.trim() === '') continue;
    await write(`${mode.answer(line)}\n`);
  }
}

function parseLine(text: string): Fields {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    throw new RangeError(
      `The line is not JSON (${(error as Error).message}); write one whole object a line.`,
    );
  }
  if (typeof parsed !== 'object' || parsed === null || Array.isArray(parsed)) {
    throw new RangeError(`The line must be a JSON object, got ${shown(parsed)}.`);
  }
  return parsed as Fields;
}

/** Turns a line into a question for the verdict. */
function understand(line: Fields): Question {
  const tools = line.tools === undefined ? {} : objectAt(line.tools, 'tools');
  for (const name of Object.keys(tools)) {
    if (!TOOLS.includes(name))
      throw new RangeError(`tools has the unknown tool ${shown(name)}; known are ${TOOLS.join(', ')}.`);
  }
  const tool = (name: string, otherwise: boolean) => flagAt(tools[name], `tools.${name}`, otherwise);
  const tachometer = tools.tachometer === undefined ? undefined : tool('tachometer', false);
  const spec = specOfNameplate(line.nameplate, tachometer);
  const complaint = line.complaint === undefined ? {} : objectAt(line.complaint, 'complaint');
  const readings = new Map<string, Value>();
  const written = new Map<string, string>();
  for (const [text, raw] of Object.entries(
    line.readings === undefined ? {} : objectAt(line.readings, 'readings'),
  )) {
    const key = canonicalKey(text, 'readings');
    const value = readingValue(key.split(' ')[0]!, raw, `readings[${shown(text)}]`);
    if (readings.has(key)) {
      throw new RangeError(
        `readings has ${shown(written.get(key))} and ${shown(text)}, which are one reading; leave one out.`,
      );
    }
    readings.set(key, value);
    written.set(key, text);
  }
  const again = wordsAt(line.tried, 'tried').map((text) => canonicalKey(text, 'tried'));
  return {
    spec,
    written,
    evidence: {
      symptoms: wordsAt(complaint.tags, 'complaint.tags'),
      readings: Object.fromEntries(readings),
      again,
      tools: {
        clamp: tool('clamp', true),
        loadTester: tool('loadTester', true),
        hydrometer: tool('hydrometer', true),
        supply: tool('supply', true),
      },
    },
  };
}

/** The answer in the exchange format; keys that the line has are written as the line writes them. */
function written(id: unknown, answer: Answer, keys: ReadonlyMap<string, string>) {
  const keyOf = (key: string) => keys.get(key) ?? key;
  return {
    id,
    sets: answer.sets
      .filter((set) => set.probability >= LEAST_SET)
      .map((set) => ({ faults: set.faults.map(faultName), p: set.probability })),
    repairs: answer.repairs.map((line) => ({
      repair: repairName(line.repair),
      p: line.probability,
      do: line.worthDoing,
    })),
    next: answer.next && { key: keyOf(answer.next.key), minutes: answer.next.minutes, why: answer.next.why },
    doubtful: answer.doubtful.map((doubt) => ({
      key: keyOf(doubt.key),
      p: doubt.probability,
      mistake: doubt.mistake,
      meant: doubt.meant,
    })),
    noneOfThese: answer.noneOfThese,
  };
}
