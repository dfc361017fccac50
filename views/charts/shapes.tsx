/** Shapes that stand the same way along a time axis, laid or turned. Across: [px] from the lane's low side. */
import { area, line } from 'd3-shape';
import type { ComponentChildren, JSX } from 'preact';
import { pointOn, tenth, type Plot } from './plot.ts';

interface TimeBox {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
}

/** A box over a span of time. */
export function Box(props: {
  plot: Plot;
  span: TimeBox;
  across: readonly [number, number];
  class: string;
  leastPx?: number;
  children?: ComponentChildren;
}): JSX.Element {
  const { plot: on, span, across } = props;
  const from = on.along(span.fromEpochMs);
  const long = Math.max(props.leastPx ?? 0, tenth(on.along(span.toEpochMs) - from));
  const wide = tenth(across[1] - across[0]);
  const { x, y } = pointOn(on, from, across[0]);
  return (
    <rect class={props.class} x={x} y={y} width={on.turned ? wide : long} height={on.turned ? long : wide}>
      {props.children}
    </rect>
  );
}

/** A line across the lanes at an instant: midnight, now. */
export function Across(props: {
  plot: Plot;
  atEpochMs: number;
  across: readonly [number, number];
  class: string;
}): JSX.Element {
  const along = props.plot.along(props.atEpochMs);
  const a = pointOn(props.plot, along, props.across[0]);
  const b = pointOn(props.plot, along, props.across[1]);
  return <line class={props.class} x1={a.x} y1={a.y} x2={b.x} y2={b.y} />;
}

/** A line along the whole axis: a limit, the foot of a lane. */
export function Along(props: { plot: Plot; atPx: number; class: string }): JSX.Element {
  const a = pointOn(props.plot, props.plot.startPx, tenth(props.atPx));
  const b = pointOn(props.plot, props.plot.endPx, tenth(props.atPx));
  return <line class={props.class} x1={a.x} y1={a.y} x2={b.x} y2={b.y} />;
}

type Values = readonly (number | null)[];

interface Sampled {
  readonly plot: Plot;
  readonly epochMs: readonly number[];
  /** Value to place across [px]. */
  readonly place: (value: number) => number;
  readonly class: string;
}

/** A curve with gaps where it is unknown. */
export function CurveLine(props: Sampled & { values: Values }): JSX.Element {
  const { plot: on, epochMs, values, place } = props;
  const along = (_: number, i: number): number => on.along(epochMs[i] ?? 0);
  const across = (_: number, i: number): number => place(values[i] ?? 0);
  const path = line<number>()
    .defined((_, i) => values[i] !== null && values[i] !== undefined)
    .x(on.turned ? across : along)
    .y(on.turned ? along : across)
    .digits(1);
  return <path class={props.class} d={path([...epochMs]) ?? ''} />;
}

/** The stretch between two curves. */
export function Fan(props: Sampled & { low: Values; high: Values }): JSX.Element {
  const { plot: on, epochMs, low, high, place } = props;
  const along = (_: number, i: number): number => on.along(epochMs[i] ?? 0);
  const lowAt = (_: number, i: number): number => place(low[i] ?? 0);
  const highAt = (_: number, i: number): number => place(high[i] ?? 0);
  const path = area<number>()
    .defined((_, i) => low[i] !== null && high[i] !== null)
    .digits(1);
  if (on.turned) path.y(along).x0(lowAt).x1(highAt);
  else path.x(along).y0(lowAt).y1(highAt);
  return <path class={props.class} d={path([...epochMs]) ?? ''} />;
}
