import type { JSX } from 'preact';
import type { Asking } from '../../bench/ask.ts';
import { whereOf } from '../../bench/where.ts';
import { drawSumPicture } from '../../draw/sum-picture.ts';
import { pictureOf } from './picture.tsx';

/** The drawing of where: the screws with their order and lengths, the stack of shims. */
export function BenchWhere(props: { readonly asking: Asking }): JSX.Element | null {
  const picture = whereOf(props.asking);
  if (picture === null) return null;
  const shape = matchMedia('(min-width: 62rem)').matches ? 'wide' : 'narrow';
  return <figure class="bench-where">{pictureOf(drawSumPicture(picture, shape))}</figure>;
}
