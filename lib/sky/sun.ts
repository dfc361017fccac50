import type { Position } from '../geo/index.ts';
import { MS_PER_H } from '../time/index.ts';
import { apparentSun, sunEventsOfSolarDay, withoutRefractionDeg, type SunEventKind } from './suncalc.ts';

export type { SunEventKind } from './suncalc.ts';

/** What the eye has to work by: day, civil and nautical twilight, and anything darker. */
export type Light = 'day' | 'civil' | 'nautical' | 'night';

export interface SunEvent {
  readonly kind: SunEventKind;
  readonly epochMs: number;
}

/** Altitudes of the sun's centre, no refraction [°]. US Naval Observatory: rise/set -0°50', twilight -6° and -12°. */
const RISE_SET_DEG = -0.833;
const CIVIL_DEG = -6;
const NAUTICAL_DEG = -12;

const DAY_MS = 24 * MS_PER_H;

/** Geometric altitude of the sun's centre [°], no refraction: what twilight is defined by. */
export function sunAltitudeDeg(epochMs: number, at: Position): number {
  return withoutRefractionDeg(apparentSun(epochMs, at).altitudeDeg);
}

/** Where the sun is seen: altitude lifted by refraction [°] (standard air), azimuth from north. */
export function sunSeen(epochMs: number, at: Position): { apparentAltitudeDeg: number; azimuthDegTrue: number } {
  const { altitudeDeg, azimuthDegTrue } = apparentSun(epochMs, at);
  return { apparentAltitudeDeg: altitudeDeg, azimuthDegTrue };
}

/** Light at an instant and place; an altitude on the bound belongs to the lighter class. */
export function lightAt(epochMs: number, at: Position): Light {
  const altitudeDeg = sunAltitudeDeg(epochMs, at);
  if (altitudeDeg >= RISE_SET_DEG) return 'day';
  if (altitudeDeg >= CIVIL_DEG) return 'civil';
  return altitudeDeg >= NAUTICAL_DEG ? 'nautical' : 'night';
}

/**
 * Sun events in [from, to), in order of time.
 *
 * In white nights and polar days some kinds are missing: there is no such event, ask {@link lightAt}.
 */
export function sunEventsBetween(span: { fromEpochMs: number; toEpochMs: number }, at: Position): readonly SunEvent[] {
  // Asked at local mean noon, as far as can be from the midnight where the package turns to another solar day.
  const noonMs = DAY_MS / 2 - (at.lon / 15) * MS_PER_H;
  const firstDay = Math.floor((span.fromEpochMs - noonMs) / DAY_MS) - 1;
  const lastDay = Math.ceil((span.toEpochMs - noonMs) / DAY_MS) + 1;
  const events: SunEvent[] = [];
  for (let day = firstDay; day <= lastDay; day++) events.push(...sunEventsOfSolarDay(day * DAY_MS + noonMs, at));
  return events
    .filter(({ epochMs }) => epochMs >= span.fromEpochMs && epochMs < span.toEpochMs)
    .toSorted((one, other) => one.epochMs - other.epochMs);
}

/** Sun events from 24 h before to 24 h after an instant. */
export function sunEventsAround(epochMs: number, at: Position): readonly SunEvent[] {
  return sunEventsBetween({ fromEpochMs: epochMs - DAY_MS, toEpochMs: epochMs + DAY_MS }, at);
}

/** Next change between day and the rest: the first sunrise or sunset after an instant, or null within 48 h. */
export function nextRiseOrSet(epochMs: number, at: Position): SunEvent | null {
  const events = sunEventsBetween({ fromEpochMs: epochMs + 1, toEpochMs: epochMs + 2 * DAY_MS }, at);
  return events.find(({ kind }) => kind === 'sunrise' || kind === 'sunset') ?? null;
}
