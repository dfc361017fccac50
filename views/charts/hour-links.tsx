import type { JSX } from 'preact';
import type { HourLink } from '../../server/presenters/strip-model.ts';
import type { Plot } from './plot.ts';
import { Box } from './shapes.tsx';

/**
 * Lies over a strip: every hour can be pointed at, to read what stands there, and pressed, to look at a start there. For
 * the pointer only, and what stands there for one that can hover; who uses keys or listens has the table of figures and the form.
 */
export function HourLinks(props: {
  hours: readonly HourLink[];
  on: Plot;
  across: readonly [number, number];
  viewBox: string;
  kind: 'desk' | 'phone';
}): JSX.Element | null {
  const { hours, on, across, viewBox, kind } = props;
  if (hours.length === 0) return null;
  return (
    <svg class={`strip-hours ${kind}`} viewBox={viewBox} aria-hidden="true" focusable="false">
      {hours.map((hour) => (
        <a key={hour.fromEpochMs} href={hour.href.replace('/windows', '')} tabIndex={-1}>
          <Box plot={on} span={hour} across={across} class="hour-link">
            {kind === 'desk' && <title>{hour.title}</title>}
          </Box>
        </a>
      ))}
    </svg>
  );
}
