import type { Position } from '../../../lib/geo/index.ts';
import { unwrapLon } from '../../../lib/geo/index.ts';
import { measureTrack, positionAtNm, type Track } from '../../../lib/track/index.ts';
import { MS_PER_H } from '../../../lib/time/index.ts';
import { epochOf } from '../time-texts.ts';
import { radFromDeg } from '../../../lib/units/index.ts';
import type { Land } from '../../coastline.ts';
import { linePath, type MapFrame, mapFrame, type MapSize, pathOf } from './map-frame.ts';
import { mapGrid } from './map-grid.ts';
import { between, type Named, placedLabels } from './map-labels.ts';
import { landPath } from './map-land.ts';
import type { MapDrawing, PxPoint } from './map-model.ts';
import { scaleBar } from './map-scale.ts';
import type { MapStop } from './map-stops.ts';
import { numbersText } from './map-words.ts';
import { type TimedPlace, wayDuring } from './plan-places.ts';
import type { SailedWay } from './sailed-way.ts';

/** Everything a drawing is made of. */
export interface Shown {
  readonly land: Land;
  /** Absent: the track is not known. */
  readonly way: SailedWay | undefined;
  readonly now: Position;
  readonly places: readonly TimedPlace[];
  readonly stops: readonly MapStop[];
}

/** The map in one size before a job is chosen. */
export type Chart = Omit<MapDrawing, 'jobs'> & {
  readonly marks: readonly (PxPoint & { readonly jobIds: readonly string[] })[];
};

/** A chart with a job chosen. */
export const withChosenJob = ({ marks, ...drawing }: Chart, jobId: string | null): MapDrawing => ({
  ...drawing,
  jobs: marks.map(({ x, y, jobIds }) => ({ x, y, isChosen: jobId !== null && jobIds.includes(jobId) })),
});

/** The map in one size. */
export function mapChart(shown: Shown, size: MapSize): Chart {
  const { way, places, stops } = shown;
  const now = { ...shown.now, lon: places[0] === undefined ? shown.now.lon : unwrapLon(shown.now.lon, places[0]) };
  const frame = mapFrame([now, ...shownPlaces(places, stops)], size);
  const nowPoint = frame.place(now);
  const marks = marksOf(stops, frame);
  const arrows = marks.flatMap(({ at, runs }) => runs.map((towardDegTrue) => arrowOf(at, towardDegTrue)));
  const named: Named[] = [
    ...marks.map(({ at, numbers }) => ({ ...at, text: numbersText(numbers), kind: 'job' as const })),
    { ...nowPoint, text: 'now', kind: 'now' },
  ];
  const taken = [nowPoint, ...marks.map(({ at }) => at), ...arrows.flatMap(({ from, to }) => between(from, to))];
  const wayPoints = [now, ...places].map(frame.place);
  const line = wayPoints.slice(1).flatMap((to, i) => between(wayPoints[i] ?? to, to));
  const { labels, leaders } = placedLabels(frame, named, taken, line);
  const grid = mapGrid(frame);
  const scale = scaleBar(frame);
  return {
    ...size,
    land: landPath(shown.land, frame),
    graticule: grid.graticule,
    dateLine: grid.dateLine,
    track: way === undefined ? '' : linePath(frame, trackPlaces(way.track)),
    way: linePath(frame, [now, ...places]),
    sleeps: stops.flatMap(({ entry, number }) => (number === null ? linePath(frame, wayDuring(places, entry)) : [])),
    runs: arrows.map(({ path }) => path),
    scaleBar: scale.path,
    now: nowPoint,
    marks: marks.map(({ at, jobIds }) => ({ ...at, jobIds })),
    leaders,
    labels: [...grid.labels, scale.label, ...labels],
  };
}

/** Sleep that begins later than this after the last work may run off the map: the table has it. */
const AFTER_WORK_MS = 12 * MS_PER_H;

function shownPlaces(places: readonly TimedPlace[], stops: readonly MapStop[]): readonly TimedPlace[] {
  const lastWork = stops.findLast(({ number }) => number !== null);
  if (lastWork === undefined) return places;
  const untilEpochMs = epochOf(lastWork.entry.endUtc) + AFTER_WORK_MS;
  return places.filter(({ atEpochMs }) => atEpochMs <= untilEpochMs);
}

/** Great circles are drawn through places so far apart; rhumb lines are straight on this chart. */
const BEND_NM = 30;

/** Waypoints, and between them as many places as a line needs to be seen bent. */
export function trackPlaces(track: Track): Position[] {
  const measured = measureTrack(track);
  return [
    ...track.waypoints.slice(0, 1),
    ...measured.legs.flatMap((leg) => {
      const count = leg.kind === 'rhumb' ? 0 : Math.floor(leg.lengthNm / BEND_NM);
      const bends = Array.from({ length: count }, (_, i) => leg.startNm + ((i + 1) * leg.lengthNm) / (count + 1));
      return [...bends.map((alongNm) => positionAtNm(measured, alongNm).position), leg.to];
    }),
  ];
}

interface Mark {
  readonly at: PxPoint;
  readonly numbers: number[];
  readonly jobIds: string[];
  /** Where its work runs before the wind [degrees true, toward]. */
  readonly runs: number[];
}

/** Marks nearer to one another than this are one. */
const ONE_MARK_PX = 11;
/** Arrows nearer to one another than this are one. */
const ONE_ARROW_DEG = 25;

function marksOf(stops: readonly MapStop[], frame: MapFrame): Mark[] {
  const marks: Mark[] = [];
  for (const { entry, number, run } of stops) {
    if (number === null || entry.jobId === null) continue;
    const at = frame.place({ lat: entry.lat, lon: unwrapLon(entry.lon, { lat: 0, lon: frame.centreLon }) });
    let mark = marks.find((other) => Math.hypot(other.at.x - at.x, other.at.y - at.y) < ONE_MARK_PX);
    if (mark === undefined) marks.push((mark = { at, numbers: [], jobIds: [], runs: [] }));
    if (!mark.numbers.includes(number)) mark.numbers.push(number);
    mark.numbers.sort((a, b) => a - b);
    mark.jobIds.push(entry.jobId);
    if (run !== null && mark.runs.every((one) => turnDeg(one, run.towardDegTrue) > ONE_ARROW_DEG))
      mark.runs.push(run.towardDegTrue);
  }
  return marks;
}

const turnDeg = (one: number, other: number): number => Math.abs(((one - other + 540) % 360) - 180);

const ARROW_FROM_PX = 8;
const ARROW_TO_PX = 42;
const HEAD_PX = 8;
const HEAD_DEG = 152;

/** An arrow that leaves a mark on a bearing; bearings are true on this chart. */
function arrowOf(at: PxPoint, towardDegTrue: number): { from: PxPoint; to: PxPoint; path: string } {
  const on = (start: PxPoint, bearingDegTrue: number, px: number): PxPoint => ({
    x: start.x + px * Math.sin(radFromDeg(bearingDegTrue)),
    y: start.y - px * Math.cos(radFromDeg(bearingDegTrue)),
  });
  const from = on(at, towardDegTrue, ARROW_FROM_PX);
  const to = on(at, towardDegTrue, ARROW_TO_PX);
  const sides = [HEAD_DEG, -HEAD_DEG].map((turn) => on(to, towardDegTrue + turn, HEAD_PX));
  return { from, to, path: pathOf([from, to]) + pathOf([sides[0] ?? to, to, sides[1] ?? to]) };
}
