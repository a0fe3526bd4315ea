/**
 * Reads the readings of a bike: a plain text, one reading a line, or a JSON object.
 *
 *     # what the meter said
 *     batt_volts lights=low rpm=3000 : 12.6 V
 *     ohms_case pin=a : OL
 *     visual what=plug_burnt : yes
 *     symptom : runs_flat_riding
 *
 * A reading that stands there twice was taken twice: the later figure counts, and the verdict knows of both. The
 * same as JSON: `{ "batt_volts lights=low rpm=3000": "12.6 V", "ohms_case pin=a": null }`; a bare number there is
 * in the kind's own unit.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import { type JsonNode, readJson } from '../machine/json-text.ts';
import { nearest } from '../machine/nearest.ts';
import { checkKey, KINDS } from '../reading/catalogue.ts';
import { type Value, writeKey } from '../reading/key.ts';
import type { Kind } from '../reading/kinds.ts';
import { type ReadValue, readValue } from './read-value.ts';
import { Refusal } from './refusal.ts';
import { SYMPTOMS } from './symptoms.ts';

export interface Readings {
  /** Canonical key → value, in the kind's unit. */
  readonly values: Map<string, Value>;
  /** Keys taken twice. */
  readonly again: Set<string>;
  readonly symptoms: Set<string>;
}

/** One line of trouble: "FILE, line 3: what; remedy." */
type Trouble = string;

/** An empty set of readings. */
export function noReadings(): Readings {
  return { values: new Map(), again: new Set(), symptoms: new Set() };
}

/** Reads a whole file into `into`; all that is wrong with it goes into one Refusal. */
export function readReadings(text: string, file: string, spec: ChargingSpec, into: Readings): void {
  const troubles: Trouble[] = [];
  if (/^\s*\{/.test(text)) readObject(text, file, spec, into, troubles);
  else readLines(text, file, spec, into, troubles);
  if (troubles.length > 0) throw new Refusal(...troubles);
}

/** Reads one reading as it stands on a line; `where` is for the message. */
export function readReading(line: string, where: string, spec: ChargingSpec, into: Readings): void {
  const trouble = readLine(line, where, spec, into);
  if (trouble !== null) throw new Refusal(trouble);
}

function readLines(
  text: string,
  file: string,
  spec: ChargingSpec,
  into: Readings,
  troubles: Trouble[],
): void {
  text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/)
    .forEach((whole, n) => {
      const line = whole.replace(/(^|\s)#.*$/, '').trim();
      if (line === '') return;
      const trouble = readLine(line, `${file}, line ${n + 1}`, spec, into);
      if (trouble !== null) troubles.push(trouble);
    });
}

function readLine(line: string, where: string, spec: ChargingSpec, into: Readings): Trouble | null {
  const at = line.indexOf(':');
  if (at < 0) {
    return `${where}: "${clip(line)}" has no colon: write the reading, a colon and what the meter showed, e.g. "batt_volts rpm=3000 : 12.6 V".`;
  }
  const keyText = line.slice(0, at).trim();
  const valueText = line.slice(at + 1).trim();
  if (/^symptoms?$/i.test(keyText)) return readSymptom(valueText, where, into);
  const key = readKeyText(keyText, spec);
  if (!key.ok) return `${where}: ${key.why}.`;
  const value = readValue(valueText, key.kind);
  return value.ok ? keep(key.canonical, value, into) : `${where}, ${key.canonical}: ${value.why}`;
}

function readSymptom(word: string, where: string, into: Readings): Trouble | null {
  if (!Object.hasOwn(SYMPTOMS, word)) {
    const near = nearest(word, Object.keys(SYMPTOMS));
    const remedy =
      near === null ? `write one of ${Object.keys(SYMPTOMS).join(', ')}` : `write ${near} if that is meant`;
    return `${where}: "${clip(word)}" is no symptom known here: ${remedy}.`;
  }
  into.symptoms.add(word);
  return null;
}

/** Reads a symptom given on the command line. */
export function addSymptom(word: string, where: string, into: Readings): void {
  const trouble = readSymptom(word, where, into);
  if (trouble !== null) throw new Refusal(trouble);
}

function readObject(
  text: string,
  file: string,
  spec: ChargingSpec,
  into: Readings,
  troubles: Trouble[],
): void {
  const { root, faults } = readJson(text);
  for (const { line, what, fix } of faults) troubles.push(`${file}, line ${line}: ${what}. ${fix}.`);
  if (root?.type !== 'object') return;
  const first = new Map<string, number>();
  for (const entry of root.entries) {
    const where = `${file}, line ${entry.at.line}`;
    const key = readKeyText(entry.key, spec);
    if (!key.ok) {
      troubles.push(`${where}: ${key.why}.`);
      continue;
    }
    const known = first.get(key.canonical);
    if (known !== undefined) {
      troubles.push(
        `${where}: ${key.canonical} stands here a second time (first on line ${known}): keep one, or use the plain text form, where a second line means "taken again".`,
      );
      continue;
    }
    first.set(key.canonical, entry.at.line);
    const value = valueOfNode(entry.value, key.kind);
    if (value === null) continue;
    if (value.ok) keep(key.canonical, value, into);
    else troubles.push(`${where}, ${key.canonical}: ${value.why}`);
  }
}

/** Null when the node was unreadable and has been reported. */
function valueOfNode(node: JsonNode, kind: Kind): ReadValue | null {
  switch (node.type) {
    case 'bad':
      return null;
    case 'string':
      return readValue(node.value, kind);
    case 'null':
      return { ok: true, value: null };
    case 'boolean':
      return readValue(node.value ? 'yes' : 'no', kind);
    case 'number':
      if (kind.unit === 'seen') return { ok: false, why: 'a thing seen is true or false, not a number.' };
      return readValue(kind.unit === 'SG' ? node.text : `${plain(node.value)} ${kind.unit}`, kind);
    default:
      return { ok: false, why: 'a reading is a text such as "12.6 V", a number, true, false or null.' };
  }
}

/** A number without an exponent. */
function plain(value: number): string {
  return value.toFixed(9).replace(/\.?0+$/, '');
}

function keep(canonical: string, read: ReadValue & { ok: true }, into: Readings): null {
  if (into.values.has(canonical)) into.again.add(canonical);
  into.values.set(canonical, read.value);
  return null;
}

/** Checks a key against the catalogue and against this bike. */
export function readKeyText(
  text: string,
  spec: ChargingSpec,
): { ok: true; canonical: string; kind: Kind } | { ok: false; why: string } {
  const checked = checkKey(text.replace(/=(yes|true)\b/gi, '=True').replace(/=(no|false)\b/gi, '=False'));
  if (!checked.ok) {
    const word = text.trim().split(/\s+/)[0] ?? '';
    const near = Object.hasOwn(KINDS, word) ? null : nearest(word, Object.keys(KINDS));
    return {
      ok: false,
      why:
        near === null
          ? checked.why
          : `no kind of reading is called "${clip(word)}"; write ${near} if that is meant`,
    };
  }
  const { key, kind } = checked;
  const { pin, pair, red, black } = key.state;
  if (
    spec.alternator.phases === 1 &&
    (pin === 'c' || red === 'c' || black === 'c' || (pair ?? 'ab') !== 'ab')
  ) {
    return {
      ok: false,
      why: `"${clip(text)}" names a third stator wire, and this bike has two: write pins a and b, or pair ab`,
    };
  }
  if (kind.id === 'drop_sense' && spec.regulator.senses === 'output') {
    return {
      ok: false,
      why: `"${clip(text)}" wants a sense wire, and this regulator senses at its own output: leave it out`,
    };
  }
  if (kind.id === 'sg' && spec.battery.chemistry !== 'flooded') {
    return {
      ok: false,
      why: `"${clip(text)}" wants cells to draw acid from, and this battery is sealed: leave it out`,
    };
  }
  return { ok: true, canonical: writeKey(key), kind };
}

function clip(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
