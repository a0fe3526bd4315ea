/** Brings the many ways of typing one sign to one sign, before anything is read. */

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅐': '1/7',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
};

const SAME: readonly (readonly [RegExp, string])[] = [
  [/[\s\u00a0\u2000-\u200b\u202f\u205f\u3000\ufeff]+/gu, ' '],
  // A minus proper is always a sign or a hyphen; an en dash and its longer kin mean "to".
  [/[\u2010\u2011\u2212\ufe63\uff0d]/gu, '-'],
  [/[\u2012\u2014\u2015]/gu, '–'],
  [/[\u2126]/gu, 'Ω'],
  [/[\u03bc]/gu, 'µ'],
  [/[º˚]/gu, '°'],
  [/℃/gu, '°C'],
  [/℉/gu, '°F'],
  [/[⁄∕]/gu, '/'],
  [/[⋅•∙×*]/gu, '·'],
  [/''|′′|[“”″„]/gu, '"'],
  [/[’‘′]/gu, "'"],
  [/…|\.{3}/gu, '..'],
  [/\+ ?\/ ?-|\+-/gu, '±'],
  [/\((us|imp|uk)\)/giu, '$1'],
  // A raised figure belongs to a unit only; after a digit it stays as it is, and is refused there.
  [/(?<=[a-z])²/giu, '2'],
  [/(?<=[a-z])³/giu, '3'],
];

/** Text with its signs brought to one form; "1⅝" becomes "1 5/8". */
export function normalise(text: string): string {
  let result = text;
  for (const [pattern, sign] of SAME) result = result.replace(pattern, sign);
  result = result.replace(
    /(\d?)( ?)([½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])/gu,
    (_, digit: string, gap: string, sign: string) =>
      digit === '' ? `${gap}${VULGAR[sign]}` : `${digit} ${VULGAR[sign]}`,
  );
  return result.trim();
}

/** The form in which unit names are compared: without spaces, dots, hyphens and the raised sign. */
export function squeeze(name: string): string {
  return name
    .replace(/[\s.·^-]/gu, '')
    .replace(/²/gu, '2')
    .replace(/³/gu, '3');
}
