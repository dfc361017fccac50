import { describe, expect, it } from 'vitest';
import { landOfTheEarth } from '../../../server/coastline.ts';
import { latOfParts, mapFrame } from '../../../server/presenters/map/map-frame.ts';
import { mapGrid } from '../../../server/presenters/map/map-grid.ts';
import { between, placedLabels } from '../../../server/presenters/map/map-labels.ts';
import type { PxPoint } from '../../../server/presenters/map/map-model.ts';
import { landPath } from '../../../server/presenters/map/map-land.ts';
import { numbersText } from '../../../server/presenters/map/map-words.ts';
import { seaMap } from '../../../server/presenters/map/sea-map.ts';
import { seaRoomOf, seaRoomSentence, seaRoomText } from '../../../server/presenters/map/sea-room.ts';
import { timeTexts } from '../../../server/presenters/time-texts.ts';
import { windAt } from '../../../server/sailed-way.ts';
import { view } from '../../pages/fixture-windows.ts';

const size = { widthPx: 760, heightPx: 500, inside: { left: 62, top: 4, right: 756, bottom: 456 } };
const land = landOfTheEarth();
const run = { jobId: 'drop', startUtc: '2026-05-28T01:00Z', towardDegTrue: 270, speedKn: 5, heldMin: 144 };

describe('mapFrame', () => {
  it('35° N 75° W from 180°: x 1.8325957 R, y 0.6528366 R', () => {
    // Snyder, Map Projections: A Working Manual (USGS PP 1395), numerical example of the Mercator, sphere; from memory.
    const frame = mapFrame([{ lat: 0, lon: 180 }], size);
    const at = frame.place({ lat: 35, lon: 285 });
    expect((at.x - frame.origin.x) / frame.pxPerRad).toBeCloseTo(1.8325957, 6);
    expect((frame.origin.y - at.y) / frame.pxPerRad).toBeCloseTo(0.6528366, 6);
    expect(latOfParts(0.6528366)).toBeCloseTo(35, 5);
  });

  it('places over the date line: all stand inside', () => {
    const places = [
      { lat: -36, lon: 178 },
      { lat: -30, lon: 190 },
    ];
    const frame = mapFrame(places, size);
    for (const { x, y } of places.map(frame.place)) {
      expect(x > 62 && x < 756).toBe(true);
      expect(y > 4 && y < 456).toBe(true);
    }
    expect(mapGrid(frame).dateLine).not.toBe('');
    expect(mapGrid(frame).labels.map(({ text }) => text)).toContain('180°');
  });
});

describe('land', () => {
  // Positions of capes and open sea from general knowledge of the globe.
  it.each([
    ['East Cape of New Zealand', -37.7, 178.5, true],
    ['the Cape of Good Hope', -34.4, 18.5, true],
    ['Chukotka, across the date line', 68, 185, true],
    ['the South Pacific', -45, -130, false],
  ])('around %s', (_, lat, lon, isThere) => {
    expect(landPath(land, mapFrame([{ lat, lon }], size)) !== '').toBe(isThere);
  });

  it('off Chile, running east: the coast at Valparaíso', () => {
    const toChile = seaRoomOf(land.coast, { lat: -33, lon: -75 }, { ...run, towardDegTrue: 90 });
    // Valparaíso lies near 33.0° S 71.6° W: 3.4° of longitude × 60 × cos 33° = 171 nm.
    expect(Math.abs((toChile.landNm ?? NaN) - 171)).toBeLessThan(8);
    expect(toChile.runNm).toBe(12);
    expect(seaRoomText(toChile)).toMatch(/^toward 090°, 12 nm in 2 h 24 min; land 1[67]\d nm off$/);
  });
});

describe('seaRoomSentence', () => {
  it('land nearer than the run: not enough', () => {
    expect(seaRoomSentence([{ run, runNm: 12, landNm: 8.9, name: 'Drop' }])).toMatch(
      /^Not enough sea room: Drop, land 8 nm/,
    );
    expect(seaRoomSentence([{ run, runNm: 12, landNm: 80, name: 'Drop' }])).toMatch(
      /^Least sea room: Drop, land 80 nm/,
    );
    expect(seaRoomSentence([{ run, runNm: 12, landNm: null, name: 'Drop' }])).toMatch(/^No land lies within 500 nm/);
    expect(seaRoomSentence([])).toMatch(/^No work runs/);
  });
});

describe('placedLabels', () => {
  it('a line that runs out to the right of a mark: its number stands off the line', () => {
    const frame = mapFrame([{ lat: 0, lon: 180 }], size);
    const mark = { x: 300, y: 200 };
    const line = between(mark, { x: 500, y: 127 });
    const named = [{ ...mark, text: '7, 9', kind: 'job' as const }];
    // The type is 12 px: four characters are some 28 px wide, and stand 9 px high upon their foot.
    const crossings = (labels: readonly PxPoint[]): number =>
      labels.flatMap(({ x, y }) => line.filter((on) => on.x >= x && on.x <= x + 28 && on.y <= y && on.y >= y - 9))
        .length;
    const free = placedLabels(frame, named, [mark]).labels;
    const off = placedLabels(frame, named, [mark], line).labels;
    expect([free.length, off.length]).toEqual([1, 1]);
    expect(crossings(free)).toBeGreaterThan(0);
    expect(crossings(off)).toBe(0);
  });
});

describe('seaMap', () => {
  const shown = { land, chosenJobId: 'drop', times: timeTexts(720) };
  it('no entries: null', () => {
    expect(seaMap({ plan: { ...view.plan, entries: [] } }, shown)).toBeNull();
  });

  it('every work and sleep has its row, all at one place one mark', () => {
    const map = seaMap(view, shown);
    expect(map?.rows).toHaveLength(view.plan.entries.length);
    expect(map?.desk.jobs).toHaveLength(1);
    expect(map?.rows.find(({ isChosen }) => isChosen)?.position).toBe("35°12'S 179°24'E");
  });

  it('a run: an arrow in both sizes, its words in the row', () => {
    const start = view.plan.entries.find(({ jobId }) => jobId === 'drop')?.startUtc ?? '';
    const track = {
      waypoints: [
        { lat: -35.2, lon: 179.4, name: null, leg: 'rhumb' as const },
        { lat: -33, lon: -175, name: null, leg: 'great-circle' as const },
      ],
    };
    const way = { now: { lat: -35.3, lon: 179.2 }, track, runs: [{ ...run, startUtc: start }] };
    const map = seaMap({ plan: view.plan, way }, shown);
    expect(map?.desk.runs).toHaveLength(1);
    expect(map?.phone.runs).toHaveLength(1);
    expect(map?.desk.track).toMatch(/^M[\d.]+ [\d.]+L/);
    expect(map?.rows.filter(({ runsOff }) => runsOff.startsWith('toward 270°, 12 nm in 2 h 24 min'))).toHaveLength(1);
  });
});

describe('windAt', () => {
  const wind = (atEpochMs: number, windKn: number, windFromDegTrue: number) => ({
    atEpochMs,
    windKn,
    windFromDegTrue,
    lat: 0,
  });
  const H = 3_600_000;
  it('half-way over north: 000°, not 180°', () => {
    const north = windAt([wind(0, 10, 350), wind(3 * H, 20, 10)], 1.5 * H);
    expect(north?.twsKn).toBe(15);
    expect(Math.cos(((north?.windFromDegTrue ?? 180) * Math.PI) / 180)).toBeCloseTo(1, 9);
  });
  it('nothing within three hours: null', () => {
    expect(windAt([wind(0, 10, 350)], 4 * H)).toBeNull();
  });
});

describe('numbersText', () => {
  it('three in a row and more: a span', () => {
    expect(numbersText([1, 2, 3, 5])).toBe('1–3, 5');
    expect(numbersText([1, 2])).toBe('1, 2');
  });
});
