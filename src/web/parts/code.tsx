import { generate } from 'lean-qr';
import type { JSX } from 'preact';

/** A text as a QR code (ISO/IEC 18004), dark on light in every theme, with the quiet zone of four modules it wants. */
export function Code(props: { readonly text: string; readonly label: string }): JSX.Element {
  const code = generate(props.text);
  const quiet = 4;
  const side = code.size + 2 * quiet;
  let d = '';
  for (let y = 0; y < code.size; y++)
    for (let x = 0; x < code.size; x++) if (code.get(x, y)) d += `M${x + quiet} ${y + quiet}h1v1h-1z`;
  return (
    <svg class="code" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={props.label}>
      <rect width={side} height={side} fill="#fff" />
      <path d={d} fill="#000" shape-rendering="crispEdges" />
    </svg>
  );
}
