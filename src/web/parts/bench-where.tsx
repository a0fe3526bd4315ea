import type { JSX } from 'preact';
import type { Asking } from '../../bench/ask.ts';
import { memberOf } from '../../bench/member-of.ts';
import { whereOf } from '../../bench/where.ts';
import { MEMBER_NAMES } from '../../draw/member-names.ts';
import { drawSumPicture } from '../../draw/sum-picture.ts';
import { MEMBERS } from '../../fault/catalogue.ts';
import { Fetched } from './fetched-page.tsx';
import { Fold } from './fold.tsx';
import { pictureOf } from './picture.tsx';

/** The drawing of where: the member on the loop, the screws with their order and lengths, the stack of shims. */
export function BenchWhere(props: { readonly asking: Asking }): JSX.Element {
  const picture = whereOf(props.asking);
  const shape = matchMedia('(min-width: 62rem)').matches ? 'wide' : 'narrow';
  return (
    <>
      <OnLoop asking={props.asking} />
      {picture && <figure class="bench-where">{pictureOf(drawSumPicture(picture, shape))}</figure>}
    </>
  );
}

/** Fetched when somebody looks: most steps are about the case, not the circuit. */
const openLoop = () => import('./loop-figure.tsx');

/** The member of the loop that the step is about, on the drawing that is the same through the whole job. */
function OnLoop(props: { readonly asking: Asking }): JSX.Element | null {
  const { machine, place } = props.asking;
  const word = memberOf(machine, place);
  const member = MEMBERS.find((one) => one === word);
  if (!member) return null;
  return (
    <Fold head={`On the loop: ${MEMBER_NAMES[member]}`}>
      {() => (
        <Fetched of={openLoop} quiet>
          {({ LoopFigure }) => <LoopFigure chosen={null} shape="narrow" highlight={member} />}
        </Fetched>
      )}
    </Fold>
  );
}
