import type { JSX } from 'preact';
import { writeRoute } from '../route.ts';
import { useAdvice } from '../state/machine-advice.ts';
import { file } from '../state/machine-draft.ts';
import { partOf } from './machine-found.tsx';

/** Most lines that are shown, count: nobody looks up more in an evening. */
const SHOWN = 8;

/** Which figure would make the verdict surer, the most telling first. */
export function MachineSharpen(): JSX.Element {
  const advice = useAdvice(null);
  const id = file.value?.id ?? '';
  if (advice === null) return <p class="awaited">Working out which figure would help most…</p>;
  if (advice.why !== null) return <p>{advice.why}</p>;
  const lines = advice.sharpenings.slice(0, SHOWN);
  if (lines.length === 0)
    return (
      <p>
        No single figure of the charging circuit would make the verdict much surer. Whether they are right,
        only the book can say.
      </p>
    );
  return (
    <ol class="sharpen stack">
      {lines.map(({ path, label, now, why, gain }) => (
        <li key={path}>
          <a
            class="link plain"
            href={writeRoute({ at: 'machine', machine: id, part: partOf(path), field: `${path}.is` })}
          >
            <span>
              {label}
              <span class="under">now {now}</span>
            </span>
          </a>
          <p>{why}</p>
          <p class="quiet">
            {gain.apart > 0 && `Settles ${gain.apart} of ${gain.pairs} mix-ups between faults. `}
            {gain.narrows > 0.01 &&
              `What a sound bike may show gets ${Math.round(gain.narrows * 100)} % narrower.`}
          </p>
        </li>
      ))}
    </ol>
  );
}
