import { formatLat, formatLon, type Position } from '../../../lib/geo/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../../lib/time/index.ts';
import type { Track } from '../../../lib/track/index.ts';
import type { Land } from '../../coastline.ts';
import { trackPlaces } from '../map/map-drawing.ts';
import { linePath, type MapFrame, mapFrame, type MapSize, pathOf } from '../map/map-frame.ts';
import { mapGrid } from '../map/map-grid.ts';
import { between as alongLine, type Named, placedLabels } from '../map/map-labels.ts';
import { landPath } from '../map/map-land.ts';
import type { MapLabel, PxPoint } from '../map/map-model.ts';
import { scaleBar } from '../map/map-scale.ts';
import type { TimeTexts } from '../time-texts.ts';
import type { AreaCovered, CoverageData, SilentSpan, WayPlace } from './coverage-model.ts';
import { joined } from '../limit-texts.ts';
import { runningOn } from './grid-ring.ts';

/** The areas of a forecast on a chart with the way, in one size; paths in the syntax of SVG. */
export interface CoverageDrawing extends MapSize {
  readonly land: string;
  readonly graticule: string;
  readonly dateLine: string;
  readonly areas: readonly string[];
  readonly track: string;
  /** Where the wind is known. */
  readonly way: readonly string[];
  /** Where it is not. */
  readonly silentWay: readonly string[];
  readonly scaleBar: string;
  readonly now: PxPoint;
  readonly midnights: readonly PxPoint[];
  /** Where a quantity ends, or its area is left. */
  readonly ends: readonly PxPoint[];
  readonly leaders: readonly string[];
  readonly labels: readonly MapLabel[];
}

export interface CoverageMap {
  readonly desk: CoverageDrawing;
  readonly phone: CoverageDrawing;
  readonly areas: readonly AreaRow[];
  /** Where and when a quantity ends or she leaves its area: the marks in words. */
  readonly ends: readonly string[];
}

export interface AreaRow {
  /** On the chart; empty: there is but one. */
  readonly letter: string;
  readonly text: string;
}

export interface MapShown {
  readonly data: CoverageData;
  readonly land: Land;
  /** null: the track is not known. */
  readonly track: Track | null;
  readonly times: TimeTexts;
  readonly shipTimeOffsetMin: number;
}

const sizeOf = (widthPx: number, heightPx: number): MapSize => ({
  widthPx,
  heightPx,
  inside: { left: 62, top: 4, right: widthPx - 4, bottom: heightPx - 44 },
});
const DESK = sizeOf(760, 440);
const PHONE = sizeOf(350, 380);

/** null: the way has no place. */
export function coverageMap(shown: MapShown): CoverageMap | null {
  if (shown.data.way.length === 0) return null;
  const ends = endsOf(shown);
  return {
    desk: drawing(shown, ends, DESK),
    phone: drawing(shown, ends, PHONE),
    areas: shown.data.areas.map((area, i) => ({
      letter: letterOf(shown.data, i),
      text: areaText(shown.data, area, i),
    })),
    ends: ends.map(({ text }) => text),
  };
}

const letterOf = ({ areas }: CoverageData, index: number): string =>
  areas.length < 2 ? '' : String.fromCodePoint(65 + (index % 26));

function areaText(
  { quantities }: CoverageData,
  { ring, southLat, northLat, stepDeg }: AreaCovered,
  index: number,
): string {
  const names = joined(quantities.filter(({ areaIndex }) => areaIndex === index).map(({ name }) => name));
  const lats = `${formatLat(southLat, 0)} to ${formatLat(northLat, 0)}`;
  const lons = (ring ?? []).map(({ lon }) => lon);
  const where =
    ring === null
      ? `${lats}, all round the earth`
      : `${lats}, from ${formatLon(Math.min(...lons), 0)} eastward to ${formatLon(Math.max(...lons), 0)}`;
  const [lat, lon] = [stepText(stepDeg.lat), stepText(stepDeg.lon)];
  return `${names}: ${where}; a value every ${lat === lon ? lat : `${lat} of latitude and ${lon} of longitude`}`;
}

const stepText = (deg: number): string => `${Math.round(deg * 100) / 100}° (${Math.round(deg * 60)}′)`;

interface EndPlace {
  readonly at: WayPlace;
  readonly text: string;
  readonly short: string;
}

/** Places where something known becomes unknown, each instant and reason once. */
function endsOf({ data, times }: MapShown): EndPlace[] {
  const groups = new Map<string, SilentSpan & { names: string[] }>();
  for (const { name, silent } of data.quantities) {
    for (const span of silent) {
      if (span.fromEpochMs <= data.fromEpochMs) continue;
      const key = JSON.stringify(span);
      const group = groups.get(key) ?? { ...span, names: [] };
      group.names.push(name);
      groups.set(key, group);
    }
  }
  return [...groups.values()].flatMap((group) => {
    const { fromEpochMs, toEpochMs, names } = group;
    const at = data.way.findLast(({ atEpochMs }) => atEpochMs <= fromEpochMs);
    if (at === undefined) return [];
    const verb = endVerb(group, names.length > 1, toEpochMs < data.endEpochMs);
    const what =
      group.why === 'no-hour'
        ? `${joined(names)} ${verb}.`
        : `she leaves the area of ${joined(names)}, or comes to its land.`;
    return [
      {
        at,
        short: `${names.length > 2 ? `${names.length} quantities` : joined(names)} ${verb} ${times.dayTime(fromEpochMs)}`,
        text: `${times.full(fromEpochMs)}, at ${formatLat(at.lat, 0)} ${formatLon(at.lon, 0)}: ${what}`,
      },
    ];
  });
}

function endVerb({ why }: SilentSpan, isPlural: boolean, isKnownAgain: boolean): string {
  if (why === 'no-place') return 'left';
  const [verb, rest] = isKnownAgain ? ['break', ' off'] : ['end', ''];
  return `${verb}${isPlural ? '' : 's'}${rest}`;
}

function drawing(shown: MapShown, ends: readonly EndPlace[], size: MapSize): CoverageDrawing {
  const { data, land, track } = shown;
  const [first] = data.way;
  const trackWay = track === null ? [] : alongside(runningOn(trackPlaces(track)), first?.lon ?? 0);
  const frame = frameAround(data, trackWay, size);
  const grid = mapGrid(frame);
  const scale = scaleBar(frame);
  const now = frame.place(first ?? { lat: 0, lon: 0 });
  const marks = ends.map(({ at, short }) => ({ ...frame.place(at), text: short, kind: 'job' as const }));
  const midnights = midnightPlaces(shown).map(({ at, text }) => ({ ...frame.place(at), text, kind: 'job' as const }));
  const corners = data.areas.map((area, i) => cornerOf(area, letterOf(data, i), frame));
  const named: Named[] = [
    ...marks,
    { ...now, text: 'now', kind: 'now' },
    ...corners.flatMap((corner) => corner ?? []),
    ...midnights,
  ];
  const { labels, leaders } = placedLabels(frame, named, [
    now,
    ...marks,
    ...data.way.map(frame.place),
    ...trackPoints(trackWay.map(frame.place)),
  ]);
  return {
    ...size,
    land: landPath(land, frame),
    graticule: grid.graticule,
    dateLine: grid.dateLine,
    areas: data.areas.map((area) => areaPath(area, frame)),
    track: linePath(frame, trackWay),
    ...wayPaths(data, frame),
    scaleBar: scale.path,
    now,
    midnights,
    ends: marks,
    leaders,
    labels: [...grid.labels, scale.label, ...labels],
  };
}

/** Places along a line, that no word may stand on. */
const trackPoints = (points: readonly PxPoint[]): PxPoint[] =>
  points.slice(1).flatMap((point, i) => alongLine(points[i] ?? point, point));

/** More than this of the sea around the way is not shown of an area [share of the way's span, and degrees at least]. */
const AROUND_SHARE = 0.5;
const AROUND_LEAST_DEG = 3;

/** Around the way, the track, and the edges of areas where they lie near. */
function frameAround({ way, areas }: CoverageData, track: readonly Position[], size: MapSize): MapFrame {
  const lats = spanOf([...way, ...track].map(({ lat }) => lat));
  const lons = spanOf([...way, ...track].map(({ lon }) => lon));
  const aroundDeg = Math.max(AROUND_LEAST_DEG, AROUND_SHARE * Math.max(lats.most - lats.least, lons.most - lons.least));
  const middleLon = (lons.least + lons.most) / 2;
  const edges = areas.flatMap(({ ring }) =>
    ring === null
      ? []
      : alongside(ring, middleLon).map(({ lat, lon }) => ({
          lat: between(lat, lats.least - aroundDeg, lats.most + aroundDeg),
          lon: between(lon, lons.least - aroundDeg, lons.most + aroundDeg),
        })),
  );
  return mapFrame([...way, ...track, ...edges], size);
}

const between = (value: number, least: number, most: number): number => Math.max(least, Math.min(most, value));

const spanOf = (values: readonly number[]): { least: number; most: number } => ({
  least: Math.min(...values),
  most: Math.max(...values),
});

/** Places whose longitudes run on, moved by whole turns so that their middle lies nearest a meridian. */
function alongside(places: readonly Position[], lon: number): Position[] {
  if (places.length === 0) return [];
  const { least, most } = spanOf(places.map((place) => place.lon));
  const turnsDeg = 360 * Math.round((lon - (least + most) / 2) / 360);
  return places.map((place) => ({ lat: place.lat, lon: place.lon + turnsDeg }));
}

function areaPath({ ring, southLat, northLat }: AreaCovered, frame: MapFrame): string {
  if (ring !== null) return `${pathOf(alongside(ring, frame.centreLon).map(frame.place))}Z`;
  const { west, east } = frame.bounds;
  return [southLat, northLat]
    .filter((lat) => Math.abs(lat) < 85)
    .map((lat) => pathOf([frame.place({ lat, lon: west }), frame.place({ lat, lon: east })]))
    .join('');
}

const INSIDE_CORNER_PX = 12;

/** Where the letter of an area stands: inside its upper left corner, or that of the chart; null: it needs none. */
function cornerOf({ ring }: AreaCovered, letter: string, frame: MapFrame): Named | null {
  if (letter === '') return null;
  const { left, top } = frame.inside;
  const points = ring === null ? [] : alongside(ring, frame.centreLon).map(frame.place);
  const x = Math.max(left, Math.min(...(points.length === 0 ? [left] : points.map((point) => point.x))));
  const y = Math.max(top, Math.min(...(points.length === 0 ? [top] : points.map((point) => point.y))));
  return { x: x + INSIDE_CORNER_PX, y: y + INSIDE_CORNER_PX, text: letter, kind: 'job' };
}

/** The way cut where the wind begins or ends to be known. */
function wayPaths({ way, quantities }: CoverageData, frame: MapFrame): Pick<CoverageDrawing, 'way' | 'silentWay'> {
  const silent = quantities.find(({ id }) => id === 'wind')?.silent ?? [];
  const isSilent = ({ atEpochMs }: WayPlace): boolean =>
    silent.some(({ fromEpochMs, toEpochMs }) => fromEpochMs < atEpochMs && atEpochMs <= toEpochMs);
  const known: string[] = [];
  const unknown: string[] = [];
  let piece: WayPlace[] = [];
  for (const [i, place] of way.entries()) {
    piece.push(place);
    const next = way[i + 1];
    if (next !== undefined && (piece.length < 2 || isSilent(next) === isSilent(place))) continue;
    (isSilent(place) ? unknown : known).push(pathOf(piece.map(frame.place)));
    piece = [place];
  }
  return { way: known.filter((path) => path !== ''), silentWay: unknown.filter((path) => path !== '') };
}

/** Where the plan ends, then the places nearest to midnights of the ship's clock, with their days. */
function midnightPlaces({ data, times, shipTimeOffsetMin }: MapShown): { at: WayPlace; text: string }[] {
  const dayMs = 24 * MS_PER_H;
  const dayOf = (epochMs: number): number => Math.floor((epochMs + shipTimeOffsetMin * MS_PER_MIN) / dayMs);
  const midnights = data.way.flatMap((at, i) => {
    const before = data.way[i - 1];
    if (before === undefined || dayOf(before.atEpochMs) === dayOf(at.atEpochMs)) return [];
    return [{ at, text: times.day(at.atEpochMs) }];
  });
  const planEnd = data.way.findLast(({ atEpochMs }) => atEpochMs <= data.planEndEpochMs);
  if (planEnd === undefined) return midnights;
  const others = midnights.filter(({ at }) => Math.abs(at.atEpochMs - planEnd.atEpochMs) > MS_PER_H);
  return [{ at: planEnd, text: `plan ends ${times.dayTime(data.planEndEpochMs)}` }, ...others];
}
