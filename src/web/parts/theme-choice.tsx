import type { JSX } from 'preact';
import { capital } from '../show.ts';
import { chooseTheme, THEME_NAMES, theme } from '../state/theme.ts';
import { Press } from './press-button.tsx';

/** One button in the head of every page, within reach wherever one is: each touch turns the page to the next theme. */
export function ThemeChoice(): JSX.Element {
  const now = theme.value;
  const next = THEME_NAMES[(THEME_NAMES.indexOf(now) + 1) % THEME_NAMES.length] ?? now;
  return (
    <Press class="theme" label={`${capital(now)} page: change to ${next}`} act={() => chooseTheme(next)}>
      <span class="half" aria-hidden="true" />
      {capital(now)}
    </Press>
  );
}
