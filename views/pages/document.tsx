import type { ComponentChildren, JSX } from 'preact';
import type { Clock } from '../../server/presenters/clock.ts';
import type { PageName } from '../parts/nav.tsx';
import { StopForm } from '../parts/state.tsx';
import { type Around, Frame } from './frame.tsx';

/** Seconds after which a browser without script asks again while the plan is being made. */
const ASK_AGAIN_S = 3;

interface DocumentProps {
  /** What the page shows: its kind, and name and clock where there is a plan. */
  readonly page: { readonly kind: string; readonly name?: string; readonly clock?: Clock };
  /** Before the name of the passage in the title; empty: the passage itself. */
  readonly title: string;
  readonly around: Around;
  readonly current: PageName;
  /** Its main. */
  readonly children: ComponentChildren;
}

/** A page with its head; while the plan is being made it asks again by itself. */
export function PlanDocument({ page, title, around, current, children }: DocumentProps): JSX.Element {
  const isPlanning = page.kind === 'planning';
  const words = [title, page.name ?? '', 'Slatch'].filter((word) => word !== '');
  return (
    <Frame
      title={words.join(' – ')}
      around={around}
      clock={page.clock ?? null}
      current={current}
      {...(isPlanning ? { refreshS: ASK_AGAIN_S } : {})}
    >
      {children}
      {isPlanning && <StopForm />}
    </Frame>
  );
}
