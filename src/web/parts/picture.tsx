import { h, type VNode } from 'preact';
import type { SvgNode } from '../../draw/svg.ts';

/**
 * A drawing from the room `draw` as part of the page. The content policy forbids style attributes, so a drawing
 * carries presentation attributes and classes only; a style that slips in is dropped here and shows in the tests.
 */
export function pictureOf(node: SvgNode): VNode {
  const { style: _style, ...attrs } = node.attrs as Record<string, string | number>;
  return h(
    node.tag,
    attrs,
    ...node.children.map((child) => (typeof child === 'string' ? child : pictureOf(child))),
  );
}
