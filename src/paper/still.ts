/** A drawing for paper: what is there only for a finger or a keyboard is taken out of it. */
import type { SvgNode } from '../draw/svg.ts';

const FOR_HANDS: ReadonlySet<string> = new Set(['hit', 'ring']);

export function still(drawing: SvgNode): SvgNode {
  return { ...stilled(drawing), attrs: { ...drawing.attrs, role: 'img' } };
}

function stilled({ tag, attrs, children }: SvgNode): SvgNode {
  const { tabindex, role, ...kept } = attrs;
  // A member is no button on paper, and says no more than its letters do.
  const { 'aria-label': label, ...rest } = kept;
  return {
    tag,
    attrs: role === 'button' ? rest : { ...kept, ...(role === undefined ? {} : { role }) },
    children: children.flatMap((child): (SvgNode | string)[] => {
      if (typeof child === 'string') return [child];
      return FOR_HANDS.has(String(child.attrs.class ?? '')) ? [] : [stilled(child)];
    }),
  };
}
