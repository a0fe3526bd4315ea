import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { DIP_KEY } from '../../draw/dip.ts';
import type { WayPlan } from '../way-report.ts';
import { pictureOf } from './picture.tsx';
import { Press } from './press-button.tsx';

const ZOOMS = [0.6, 0.8, 1, 1.3, 1.7, 2.2] as const;

/** The step whose line or ring lies nearest to a touch, sideways: the line is thinner than a finger. */
function nearest(svg: Element, x: number): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const piece of svg.querySelectorAll<SVGElement>('[data-step]')) {
    const { left, right } = piece.getBoundingClientRect();
    const far = Math.max(left - x, x - right, 0) + (right - left) / 1e4;
    if (far < least) {
      least = far;
      best = piece.dataset.step ?? null;
    }
  }
  return best;
}

/** The dip in a frame of its own that scrolls sideways; a touch opens the step below it. */
export function WayDip(props: {
  readonly plan: WayPlan;
  readonly open: (step: string) => void;
}): JSX.Element {
  const { dip } = props.plan;
  const [zoom, setZoom] = useState(2);
  const [width = 600] = String(dip.attrs.viewBox).split(' ').slice(2).map(Number);
  const wide = String(dip.attrs.class).includes('wide');
  return (
    <section class="stack tight" aria-labelledby="way-dip">
      <h2 id="way-dip">The dip</h2>
      <div class="row">
        <Press label="Smaller" disabled={zoom === 0} act={() => setZoom(zoom - 1)}>
          −
        </Press>
        <Press label="Larger" disabled={zoom === ZOOMS.length - 1} act={() => setZoom(zoom + 1)}>
          +
        </Press>
        <p class="quiet">Push it sideways; a touch on it opens the step.</p>
      </div>
      {/* biome-ignore-start lint/a11y: a region that scrolls must be reached by the keyboard; the steps below are what a key opens */}
      <section
        class="dip-scroll"
        aria-label="The dip, scrolls sideways"
        tabIndex={0}
        onClick={(event) => {
          const svg = event.currentTarget.querySelector('svg');
          const step = svg && nearest(svg, event.clientX);
          if (step) props.open(step);
        }}
      >
        {pictureOf({ ...dip, attrs: { ...dip.attrs, width: Math.round(width * ZOOMS[zoom]!) } })}
      </section>
      {/* biome-ignore-end lint/a11y: see above */}
      {!wide && (
        <p class="quiet">
          {DIP_KEY.map((words) => (
            <span key={words} class="way-key">
              {words}
            </span>
          ))}
        </p>
      )}
    </section>
  );
}
