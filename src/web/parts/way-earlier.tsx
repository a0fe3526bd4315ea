import type { JSX } from 'preact';
import { earlierJobs, learned } from '../state/bike.ts';
import { Fetched } from './fetched-page.tsx';

const openLeft = () => import('./earlier-left.tsx');
const openLearned = () => import('./way-learned.tsx');

/** What earlier jobs on this bike left and taught. Most bikes have none: the code that tells it is fetched where there is some. */
export function WayEarlier(): JSX.Element {
  return (
    <>
      {earlierJobs.value.length > 0 && (
        <Fetched of={openLeft} quiet>
          {({ EarlierLeft }) => <EarlierLeft />}
        </Fetched>
      )}
      {learned.value.size > 0 && (
        <Fetched of={openLearned} quiet>
          {({ WayLearned }) => <WayLearned />}
        </Fetched>
      )}
    </>
  );
}
