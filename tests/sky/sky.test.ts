import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  lightAt,
  localSolarH,
  moonAt,
  moonEventsBetween,
  nextRiseOrSet,
  sunAltitudeDeg,
  sunEventsAround,
  sunEventsBetween,
  type Light,
} from '../../lib/sky/index.ts';

interface DayItem {
  readonly id: string;
  readonly topic: string;
  readonly inputs: { readonly lat: number; readonly lon: number };
  readonly expected: Readonly<Record<string, string | null>>;
}

const { items } = JSON.parse(
  readFileSync(resolve(import.meta.dirname, '../golden/check-values/weather-and-navigation.json'), 'utf8'),
) as { items: readonly DayItem[] };

/** Published instants at which the light changes, with the classes before and after. */
const CHANGES: Readonly<Record<string, readonly [Light, Light]>> = {
  nauticalDawn: ['night', 'nautical'],
  civilDawn: ['nautical', 'civil'],
  sunrise: ['civil', 'day'],
  sunset: ['day', 'civil'],
  civilDusk: ['civil', 'nautical'],
  nauticalDusk: ['nautical', 'night'],
};

/** US Naval Observatory to the minute (±0.5), the independent ephemeris to the second; at 65° and above the sun creeps. */
const marginMs = ({ inputs, topic }: DayItem): number =>
  (Math.abs(inputs.lat) > 60 ? 2.5 : topic === 'sun-day-at-sea' ? 0.5 : 1.2) * 60_000;

const changes = items
  .filter(({ topic }) => topic === 'sun-moon-day-utc' || topic === 'sun-day-at-sea')
  .flatMap((item) =>
    Object.entries(item.expected).flatMap(([key, instant]) => {
      const classes = CHANGES[key];
      return classes === undefined || typeof instant !== 'string'
        ? []
        : [{ label: `${item.id} ${key}`, item, epochMs: Date.parse(instant), classes }];
    }),
  );

describe('lightAt against published rise, set and twilight', () => {
  it.each(changes)('$label: the one class just before it, the other just after', ({ item, epochMs, classes }) => {
    const [before, after] = classes;
    expect(lightAt(epochMs - marginMs(item), item.inputs)).toBe(before);
    expect(lightAt(epochMs + marginMs(item), item.inputs)).toBe(after);
  });

  it('enough of them were looked at', () => {
    expect(changes.length).toBeGreaterThan(120);
  });

  it('Tromsø in June, McMurdo in June (US Naval Observatory): day all day, never lighter than nautical', () => {
    for (let hour = 0; hour < 24; hour++) {
      const epochMs = Date.UTC(2026, 5, 21, hour);
      expect(lightAt(epochMs, { lat: 69.6489, lon: 18.95508 })).toBe('day');
      expect(['nautical', 'night']).toContain(lightAt(epochMs, { lat: -77.846, lon: 166.676 }));
    }
  });
});

describe('sunAltitudeDeg', () => {
  it('at every event of a day: -0.833°, -6°, -12° within 0.001°, at 0, 40 S and 60 N', () => {
    const altitudes: Readonly<Record<string, number>> = {
      sunrise: -0.833,
      sunset: -0.833,
      'civil-dawn': -6,
      'civil-dusk': -6,
      'nautical-dawn': -12,
      'nautical-dusk': -12,
    };
    const offDeg = [0, -40, 60].flatMap((lat) =>
      sunEventsAround(Date.UTC(2026, 2, 1), { lat, lon: -150 }).flatMap(({ kind, epochMs }) => {
        const wantedDeg = altitudes[kind];
        return wantedDeg === undefined ? [] : [Math.abs(sunAltitudeDeg(epochMs, { lat, lon: -150 }) - wantedDeg)];
      }),
    );
    expect(offDeg.length).toBe(36);
    expect(Math.max(...offDeg)).toBeLessThan(1e-3);
  });

  it('NREL/TP-560-34302 example A.5: topocentric elevation without refraction 39.872° within 0.01°', () => {
    const altitudeDeg = sunAltitudeDeg(Date.UTC(2003, 9, 17, 19, 30, 30), { lat: 39.742476, lon: -105.1786 });
    expect(Math.abs(altitudeDeg - 39.872046)).toBeLessThan(0.01);
  });

  it('rising through the horizon: no jump where refraction sets in', () => {
    const at = { lat: 10, lon: 0 };
    let lastDeg = sunAltitudeDeg(Date.UTC(2026, 2, 20, 5, 30), at);
    for (let minute = 1; minute < 90; minute++) {
      const altitudeDeg = sunAltitudeDeg(Date.UTC(2026, 2, 20, 5, 30 + minute), at);
      expect(Math.abs(altitudeDeg - lastDeg - 0.246)).toBeLessThan(0.005);
      lastDeg = altitudeDeg;
    }
  });

  it('a place that is not a number: thrown, not answered', () => {
    expect(() => lightAt(0, { lat: NaN, lon: 0 })).toThrow('latitude');
    expect(() => moonAt(NaN, { lat: 0, lon: 0 })).toThrow('instant');
  });
});

describe('sunEventsBetween', () => {
  it('a hundred days in one go or day by day, on any meridian: the same events, each once', () => {
    const start = Date.UTC(2026, 0, 1);
    for (const lon of [-180, -150, -7.5, 0, 7.5, 100, 179.9]) {
      const at = { lat: 45, lon };
      const whole = sunEventsBetween({ fromEpochMs: start, toEpochMs: start + 100 * 86_400_000 }, at);
      const daily = Array.from({ length: 100 }, (_, day) =>
        sunEventsBetween({ fromEpochMs: start + day * 86_400_000, toEpochMs: start + (day + 1) * 86_400_000 }, at),
      ).flat();
      expect(daily).toEqual(whole);
      const rises = whole.filter(({ kind }) => kind === 'sunrise').map(({ epochMs }) => epochMs);
      expect(rises.length).toBeGreaterThanOrEqual(100);
      for (const [index, rise] of rises.slice(1).entries()) {
        expect(Math.abs(rise - (rises[index] ?? NaN) - 86_400_000)).toBeLessThan(180_000);
      }
    }
  });

  it('midnight UTC at Greenwich: the events of the day to come are there (the package alone gives yesterday)', () => {
    const at = { lat: 0, lon: 0 };
    const next = nextRiseOrSet(Date.UTC(2026, 5, 1), at);
    expect(next?.kind).toBe('sunrise');
    expect(Math.abs((next?.epochMs ?? 0) - Date.UTC(2026, 5, 1, 5, 54))).toBeLessThan(5 * 60_000);
  });

  it('polar day: no sunrise to wait for, null', () => {
    expect(nextRiseOrSet(Date.UTC(2026, 5, 21), { lat: 80, lon: 0 })).toBeNull();
  });
});

describe('the moon', () => {
  it('full and high: useful; new, or low: not', () => {
    // Full moon of 3 January 2026 (JPL Horizons: 0.996 lit), high at midnight in 30 N.
    const full = moonAt(Date.UTC(2026, 0, 3), { lat: 30, lon: 0 });
    expect(full.illuminatedRatio).toBeGreaterThan(0.99);
    expect(full).toMatchObject({ useful: true });
    expect(moonAt(Date.UTC(2026, 0, 3, 12), { lat: 30, lon: 0 }).useful).toBe(false);
    expect(moonAt(Date.UTC(2026, 0, 18, 12), { lat: -30, lon: 0 }).useful).toBe(false);
  });

  it('a month: about one rise a lunar day, in order of time', () => {
    const start = Date.UTC(2026, 4, 1);
    const events = moonEventsBetween(
      { fromEpochMs: start, toEpochMs: start + 30 * 86_400_000 },
      { lat: -40, lon: -150 },
    );
    const rises = events.filter(({ kind }) => kind === 'moonrise');
    expect([28, 29, 30]).toContain(rises.length);
    expect(events).toEqual(events.toSorted((one, other) => one.epochMs - other.epochMs));
  });
});

describe('localSolarH', () => {
  it('noon at Greenwich: 12 there, 2 at 150 W, 0 at the date line', () => {
    const noon = Date.UTC(2026, 4, 1, 12);
    expect(localSolarH(noon, 0)).toBe(12);
    expect(localSolarH(noon, -150)).toBeCloseTo(2, 9);
    expect(localSolarH(noon, 180)).toBe(0);
    expect(localSolarH(noon, -180)).toBe(0);
  });

  it('before 1970: still between 0 and 24', () => {
    expect(localSolarH(-3_600_000, -150)).toBeCloseTo(13, 9);
  });
});
