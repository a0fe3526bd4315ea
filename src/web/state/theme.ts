/** Which of the three themes is on. Until the mechanic chooses, the device's own wish counts. */
import { effect, signal } from '@preact/signals';
import { THEMES, type ThemeName } from '../../draw/palette.ts';
import { keepSetting, readSetting } from '../browser.ts';

export const THEME_NAMES = Object.keys(THEMES) as readonly ThemeName[];

const kept = THEME_NAMES.find((name) => name === readSetting('theme'));

function wished(): ThemeName {
  if (matchMedia('(prefers-contrast: more)').matches) return 'glare';
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'slate' : 'paper';
}

export const theme = signal<ThemeName>(kept ?? wished());

export function chooseTheme(name: ThemeName): void {
  theme.value = name;
  keepSetting('theme', name);
}

effect(() => {
  const root = document.documentElement;
  root.dataset.theme = theme.value;
  root.style.colorScheme = theme.value === 'slate' ? 'dark' : 'light';
  for (const [name, colour] of Object.entries(THEMES[theme.value]))
    root.style.setProperty(`--${name}`, colour);
});
