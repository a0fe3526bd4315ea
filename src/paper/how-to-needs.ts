/** What a how-to says before the first step: tools, parts and supplies, and the figures of what the steps turn, measure and fill. */
import { counting } from '../machine/counts.ts';
import type { Machine, Part } from '../machine/definition.ts';
import { sayFastener } from '../machine/say-fastener.ts';
import { sayShopping } from '../way/shopping.ts';
import type { Block } from './document.ts';
import type { JobWay } from './job-way.ts';
import { heading, list, words } from './make-block.ts';

export function needBlocks({ shopping }: JobWay): readonly Block[] {
  const { tools, lines } = shopping;
  const isPart = (kind: string) => kind === 'part';
  const says = (all: typeof lines) =>
    all.map((line) => sayShopping({ ...line, inStock: 0, toGet: line.amount }));
  const [parts, supplies] = [
    says(lines.filter(({ supply }) => isPart(supply.kind))),
    says(lines.filter(({ supply }) => !isPart(supply.kind))),
  ];
  return [
    heading(1, 'What you need'),
    ...(tools.length > 0 ? [heading(2, 'Tools'), ...list(tools.map(({ name }) => name))] : []),
    ...(parts.length > 0 ? [heading(2, 'Parts'), ...list(parts)] : []),
    ...(supplies.length > 0 ? [heading(2, 'Gaskets, seals and supplies'), ...list(supplies)] : []),
    ...(tools.length + lines.length === 0 ? [words('The machine file names no tools and no supplies.')] : []),
  ];
}

/** Figures of what the steps turn, measure and fill; of a bike without steps all that its file has. */
export function figureBlocks(machine: Machine, way: JobWay | null): readonly Block[] {
  const fresh: readonly Part[] = way?.fresh ?? [];
  const steps = way?.steps ?? [];
  const of = <T>(section: Readonly<Record<string, T>> | null, ids: readonly (string | null | undefined)[]) =>
    Object.entries(section ?? {}).filter(([id]) => way === null || ids.includes(id));
  const machineSteps = allSteps(machine).filter(({ id }) => steps.some((step) => step.id === id));
  const turned = steps.flatMap(({ fastener, action }) => [
    fastener,
    action === null ? null : (machine.work?.actions[action]?.fastener ?? null),
  ]);
  const fasteners = of(machine.fasteners, turned).flatMap(([id]) => {
    const said = sayFastener(machine, id, fresh);
    return said ? [said] : [];
  });
  const torques = fasteners.map(({ name, size, torque, stages, mind, source }) => [
    name,
    size ?? '–',
    torque ?? '–',
    stages.length > 0 ? stages.join(', then ') : '–',
    mind.join('; ') || '–',
    source ?? '–',
  ]);
  const said = (figure: Parameters<typeof counting>[1] & { readonly is: { readonly text: string } }) => {
    const counts = counting(machine, figure, fresh) as {
      readonly is: { readonly text: string };
      readonly from: string;
      readonly page?: string | null;
    };
    const title = machine.sources[counts.from]?.title ?? counts.from;
    return [counts.is.text, counts.page ? `${title}, ${counts.page}` : title];
  };
  const others = [
    ...of(
      machine.chains,
      machineSteps.map(({ chain }) => chain),
    ).flatMap(([, { name, slack, slackWhen }]) =>
      slack === null
        ? []
        : [[`${name}: slack at the tight spot${slackWhen === null ? '' : `, ${slackWhen}`}`, ...said(slack)]],
    ),
    ...of(
      machine.shims,
      machineSteps.map(({ shims }) => shims),
    ).flatMap(([, { name, stack, play }]) => [
      ...(stack === null ? [] : [[`${name}: stack`, ...said(stack)]]),
      ...(play === null ? [] : [[`${name}: play`, ...said(play)]]),
    ]),
    ...of(
      machine.fluids,
      machineSteps.map(({ fluid }) => fluid),
    ).flatMap(([, { name, amount, dry }]) => [
      [`${name}: at a change`, ...said(amount)],
      ...(dry === null ? [] : [[`${name}: after the case was dry`, ...said(dry)]]),
    ]),
  ];
  if (torques.length + others.length === 0) return [];
  return [
    heading(1, 'Figures'),
    ...(torques.length > 0
      ? [
          {
            kind: 'rows' as const,
            caption: 'Fasteners, with the torque at the fastener',
            head: ['Fastener', 'Size', 'Torque', 'In stages', 'Mind', 'From'],
            rows: torques,
          },
        ]
      : []),
    ...(others.length > 0
      ? [
          {
            kind: 'rows' as const,
            caption: 'Slack, shims and fluids',
            head: ['What', 'Figure', 'From'],
            rows: others,
          },
        ]
      : []),
  ];
}

function allSteps({ work }: Machine) {
  if (!work) return [];
  return [
    ...Object.values(work.actions).flatMap(({ back }) => back ?? []),
    ...Object.values(work.targets).flatMap((target) => target.work ?? []),
    ...(work.closing ?? []),
  ];
}
