/** Texts of other files as values. */
import { readJson } from '../machine/json-text.ts';
import { isObject, type Json, jsonOf } from '../machine/json-value.ts';

/** The value of a text that reads without fault as an object; null otherwise. */
export function valueOfText(text: string): Json | null {
  const { root, faults } = readJson(text);
  if (root === null || faults.length > 0) return null;
  const value = jsonOf(root);
  return isObject(value) ? value : null;
}
