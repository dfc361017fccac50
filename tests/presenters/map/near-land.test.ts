import { geoMercator, geoPath } from 'd3-geo';
import { describe, expect, it } from 'vitest';
import { coastAheadNm, coastNear } from '../../../lib/geo/index.ts';
import { landOfTheEarth } from '../../../server/coastline.ts';
import { type MapFrame, mapFrame } from '../../../server/presenters/map/map-frame.ts';
import { landPath } from '../../../server/presenters/map/map-land.ts';
import { coastOfRuns } from '../../../server/presenters/map/sea-room.ts';
import { keptSeaMap, seaMap } from '../../../server/presenters/map/sea-map.ts';
import { timeTexts } from '../../../server/presenters/time-texts.ts';
import { view } from '../../pages/fixture-windows.ts';

const size = { widthPx: 760, heightPx: 500, inside: { left: 62, top: 4, right: 756, bottom: 456 } };
const land = landOfTheEarth();

/** All land of the earth, clipped by d3 alone. */
function allLandIn(frame: MapFrame): string {
  const { left, top, right, bottom } = frame.inside;
  const projection = geoMercator()
    .rotate([-frame.centreLon, 0])
    .scale(frame.pxPerRad)
    .translate([frame.origin.x, frame.origin.y])
    .clipExtent([
      [left, top],
      [right, bottom],
    ]);
  const coordinates = land.pieces.map(({ rings }) => rings);
  return geoPath(projection).digits(1)({ type: 'MultiPolygon', coordinates }) ?? '';
}

describe('land left out before clipping', () => {
  it.each([
    ['New Zealand to the middle of the Pacific', [-37, 176], [-30, 201]],
    ['the Bering Strait, over the date line', [64, 178], [67, 192]],
    ['the Channel', [49, -5], [51, 1]],
    ['in the middle of Asia: land all around', [45, 90], [46, 91]],
    ['in the middle of Antarctica', [-80, 20], [-79, 24]],
    ['off Antarctica', [-66, 60], [-64, 70]],
    ['the Strait of Gibraltar', [35, -7], [37, -4]],
    ['open sea', [-45, -131], [-44, -129]],
    ['the Atlantic from one side to the other', [-40, -60], [50, 20]],
    ['three quarters of the earth', [-40, -130], [50, 140]],
  ])('%s: the same path', (_, south, north) => {
    const places = [south, north].map(([lat = 0, lon = 0]) => ({ lat, lon }));
    const frame = mapFrame(places, size);
    expect(landPath(land, frame)).toBe(allLandIn(frame));
  });
});

describe('coast near a place', () => {
  // Cape Reinga, the Bering Strait, Gibraltar, the Drake Passage, the Southern Ocean, the pole.
  const places = [
    { lat: -34, lon: 172 },
    { lat: 65, lon: -169 },
    { lat: 36, lon: -5.5 },
    { lat: -58, lon: -66 },
    { lat: -50, lon: 80 },
    { lat: 89, lon: 10 },
  ];

  it('every look within the distance: as far as on the whole coast', () => {
    const bearings = Array.from({ length: 36 }, (_, i) => i * 10);
    const found = places.flatMap((from) => {
      const near = coastNear(land.coast, from, 500);
      return bearings.map((towardDegTrue) => {
        const look = { from, towardDegTrue, withinNm: 500 };
        const whole = coastAheadNm(land.coast, look);
        expect(coastAheadNm(near, look), JSON.stringify(look)).toBe(whole);
        return whole;
      });
    });
    expect(found.filter((landNm) => landNm !== null).length).toBeGreaterThan(50);
    expect(found.filter((landNm) => landNm === null).length).toBeGreaterThan(50);
  });

  it('a small part of it, whole lines apart; far off: none', () => {
    const near = coastNear(land.coast, { lat: -34, lon: 172 }, 500);
    expect(near.vectors.length).toBeGreaterThan(0);
    expect(near.vectors.length).toBeLessThan(land.coast.vectors.length / 20);
    expect(coastNear(land.coast, { lat: -50, lon: -125 }, 300).vectors).toHaveLength(0);
  });

  it('a piece whose ends are far away and whose middle is near: kept', () => {
    const [from, to] = [-40, 40].map((lon) => ({
      x: Math.cos((lon * Math.PI) / 180),
      y: Math.sin((lon * Math.PI) / 180),
    }));
    const vectors = Float64Array.of(from?.x ?? 0, from?.y ?? 0, 0, to?.x ?? 0, to?.y ?? 0, 0, NaN, NaN, NaN);
    const near = coastNear({ vectors }, { lat: 3, lon: 0 }, 200);
    const look = { from: { lat: 3, lon: 0 }, towardDegTrue: 180, withinNm: 200 };
    // Three degrees of a meridian are 180 nm.
    expect(coastAheadNm(near, look)).toBeCloseTo(180, 6);
  });

  it('runs from places on two sides of the date line: as on the whole coast', () => {
    const starts = [
      { lat: -36, lon: 178 },
      { lat: -33, lon: -176 },
    ];
    const coast = coastOfRuns(land.coast, starts);
    for (const from of starts) {
      const look = { from, towardDegTrue: 260, withinNm: 500 };
      expect(coastAheadNm(coast, look)).toBe(coastAheadNm(land.coast, look));
    }
    expect(coastOfRuns(land.coast, [])).toBe(land.coast);
  });
});

describe('maps kept with a plan', () => {
  it('another job: another mark, the same charts', () => {
    const shown = { land, times: timeTexts(720) };
    const [drop, hoist] = ['drop', 'stitch'].map((chosenJobId) => keptSeaMap(view, { ...shown, chosenJobId }));
    expect(drop).toEqual(seaMap(view, { ...shown, chosenJobId: 'drop' }));
    expect(hoist).toEqual(seaMap(view, { ...shown, chosenJobId: 'stitch' }));
    expect(drop?.rows.find(({ isChosen }) => isChosen)?.name).not.toBe(
      hoist?.rows.find(({ isChosen }) => isChosen)?.name,
    );
    expect(hoist?.desk.land).toBe(drop?.desk.land);
  });
});
