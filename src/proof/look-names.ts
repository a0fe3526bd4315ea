/** Looks at a repaired bike by name, for lists and papers; words of a later version are shown as they are. */
export const LOOK_NAMES: Readonly<Record<string, string>> = {
  lamps: 'Lamps, horn and indicators',
  leak: 'Leaks',
  level: 'Level of what was filled',
  'run-clear': 'Run of the stator’s wire',
  noise: 'Noise at the case',
  slack: 'Slack of the chain',
};
