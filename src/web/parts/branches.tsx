import type { JSX } from 'preact';
import { MEMBER_NAMES } from '../../draw/member-names.ts';
import type { Branch } from '../../verdict/answer.ts';
import { inHundred } from '../../verdict/say-chance.ts';
import { capital } from '../show.ts';

/** Whole bikes in a hundred, never none and never all. */
function hundredth(probability: number): string {
  if (probability < 0.005) return '<1';
  return probability > 0.995 ? '>99' : String(Math.round(probability * 100));
}

/** What each answer to the proposed reading would change, the likeliest answer first. */
export function Branches(props: { readonly branches: readonly Branch[] }): JSX.Element {
  const ordered = [...props.branches].sort((a, b) => b.probability - a.probability);
  return (
    <ul class="branch-list">
      {ordered.map((branch) => (
        <li key={branch.answer}>
          <p>
            <b>{capital(branch.answer)}</b>{' '}
            <span class="quiet">
              chance <span class="whole">{inHundred(branch.probability)}</span>
            </span>
          </p>
          {branch.moves.length === 0 ? (
            <p class="quiet">changes little</p>
          ) : (
            <ul class="moves">
              {branch.moves.map(({ member, from, to }) => (
                <li key={member}>
                  <span aria-hidden="true">{to > from ? '↗' : '↘'}</span> {MEMBER_NAMES[member]}{' '}
                  <span class="figure">
                    {hundredth(from)} → {hundredth(to)}
                  </span>{' '}
                  <span class="quiet">in 100</span>
                </li>
              ))}
            </ul>
          )}
        </li>
      ))}
    </ul>
  );
}
