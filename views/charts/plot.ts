import { scaleLinear } from 'd3-scale';

/** A time axis laid across the page, or turned so that time runs down it. */
export interface Plot {
  readonly turned: boolean;
  readonly startPx: number;
  readonly endPx: number;
  /** Place of an instant along the axis [px]. */
  readonly along: (epochMs: number) => number;
}

export function plot(
  span: { fromEpochMs: number; toEpochMs: number },
  px: readonly [number, number],
  turned: boolean,
): Plot {
  const scale = scaleLinear([span.fromEpochMs, span.toEpochMs], px).clamp(true);
  return { turned, startPx: px[0], endPx: px[1], along: (epochMs) => tenth(scale(epochMs)) };
}

/** A place of `along` and `across` the time axis, as x and y on the page. */
export const pointOn = ({ turned }: Plot, along: number, across: number): { x: number; y: number } =>
  turned ? { x: across, y: along } : { x: along, y: across };

export const tenth = (px: number): number => Math.round(px * 10) / 10;
