import type { Position } from '../geo/index.ts';
import { MS_PER_H } from '../time/index.ts';
import { apparentMoonAltitudeDeg, moonEventsOfUtcDay, moonIllumination } from './suncalc.ts';

export interface Moon {
  /** Altitude of its centre as seen, refraction and parallax included. */
  readonly apparentAltitudeDeg: number;
  /** Lit share of the disc, 0 new … 1 full. */
  readonly illuminatedRatio: number;
  readonly waxing: boolean;
  /** High and full enough to work by, if the sky lets it through. */
  readonly useful: boolean;
}

export interface MoonEvent {
  readonly kind: 'moonrise' | 'moonset';
  readonly epochMs: number;
}

/** Moonlight worth having: more than half a disc, more than 15° up. Common practice, no source. */
const USEFUL_RATIO = 0.5;
const USEFUL_ALTITUDE_DEG = 15;

const DAY_MS = 24 * MS_PER_H;

/** The moon at an instant and place. Cloud is not looked at: below 60 % of it, common practice says. */
export function moonAt(epochMs: number, at: Position): Moon {
  const apparentAltitudeDeg = apparentMoonAltitudeDeg(epochMs, at);
  const { illuminatedRatio, waxing } = moonIllumination(epochMs);
  const useful = illuminatedRatio > USEFUL_RATIO && apparentAltitudeDeg > USEFUL_ALTITUDE_DEG;
  return { apparentAltitudeDeg, illuminatedRatio, waxing, useful };
}

/** Moonrises and moonsets (upper limb) in [from, to), in order of time. A calendar day may lack one of them. */
export function moonEventsBetween(
  span: { fromEpochMs: number; toEpochMs: number },
  at: Position,
): readonly MoonEvent[] {
  const events: MoonEvent[] = [];
  const firstDayMs = Math.floor(span.fromEpochMs / DAY_MS) * DAY_MS;
  for (let t = firstDayMs; t < span.toEpochMs; t += DAY_MS) events.push(...moonEventsOfUtcDay(t, at));
  return events
    .filter(({ epochMs }) => epochMs >= span.fromEpochMs && epochMs < span.toEpochMs)
    .toSorted((one, other) => one.epochMs - other.epochMs);
}
