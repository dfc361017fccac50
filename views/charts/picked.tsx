import type { JSX } from 'preact';
import type { StripModel } from '../../server/presenters/strip-model.ts';
import type { Plot } from './plot.ts';
import { Across, Box } from './shapes.tsx';

/** The start that is looked at: a line at it, the planned work, and the hours the weather must hold. */
export function Picked(props: { strip: StripModel; on: Plot; across: readonly [number, number] }): JSX.Element | null {
  const { strip, on, across } = props;
  const { pick } = strip;
  if (pick === undefined) return null;
  const held = { fromEpochMs: pick.fromEpochMs, toEpochMs: pick.holdEpochMs };
  return (
    <g class="picked">
      <Box plot={on} span={held} across={across} class="pick-held" leastPx={3} />
      <Across plot={on} atEpochMs={pick.fromEpochMs} across={across} class="pick-start" />
      <Across plot={on} atEpochMs={pick.toEpochMs} across={across} class="pick-end" />
    </g>
  );
}
