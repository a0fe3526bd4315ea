import type { JSX } from 'preact';
import type { ThemeName } from '../../draw/palette.ts';
import { capital } from '../show.ts';
import { chooseTheme, THEME_NAMES, theme } from '../state/theme.ts';
import { Segments } from './segments.tsx';

export function ThemeChoice(): JSX.Element {
  return (
    <Segments
      ask="Page as"
      choices={THEME_NAMES.map((name) => ({ value: name, title: capital(name) }))}
      chosen={theme.value}
      choose={(value) => chooseTheme(value as ThemeName)}
    />
  );
}
