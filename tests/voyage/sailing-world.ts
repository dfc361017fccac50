/** A boat, a track and a steady wind for tests of the voyage. */
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import type { Boat, Handling } from '../../lib/boat/index.ts';
import type { SampleWeather } from '../../lib/voyage/index.ts';
import type { MeasuredTrack } from '../../lib/track/index.ts';
import { measureTrack } from '../../lib/track/index.ts';
import { littleWeather, speedRows } from '../planner/little-world.ts';

export const FIRST_EPOCH_MS = Date.UTC(2026, 5, 1);
export const gridOf = (slotCount: number) => ({ firstEpochMs: FIRST_EPOCH_MS, slotMin: 10, slotCount });

export const boatAt = (boatSpeedKn: number): Boat => ({
  name: 'voyage boat',
  instrumentHeightM: 18,
  sailStates: DEFAULT_SAIL_STATES,
  speedTables: { 'full-main': speedRows(boatSpeedKn), 'headsail-only': speedRows(boatSpeedKn / 2) },
  handlings: DEFAULT_HANDLINGS,
});

export const steadyWind = (windKn: number, fromDegTrue: number): SampleWeather =>
  littleWeather([{ windKn: () => windKn, windFromDegTrue: () => fromDegTrue, seaHeightM: () => 1 }], 240)
    .sampleReference;

export const trackThrough = (...places: readonly (readonly [lat: number, lon: number])[]): MeasuredTrack =>
  measureTrack({ waypoints: places.map(([lat, lon]) => ({ lat, lon, name: null, leg: 'rhumb' as const })) });

export const handling = (id: string): Handling => {
  const found = DEFAULT_HANDLINGS.find((known) => known.id === id);
  if (found === undefined) throw new Error(`no handling ${id}`);
  return found;
};
