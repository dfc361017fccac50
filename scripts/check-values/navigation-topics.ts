import {
  courseToSteer,
  crossTrack,
  departureNm,
  distanceRunNm,
  dLonDegOf,
  formatPosition,
  greatCircle,
  greatCircleFraction,
  greatCircleLatAtLon,
  greatCirclePoint,
  greatCircleVertex,
  madeGood,
  midLatitudeCourse,
  midLatitudePoint,
  NM_PER_DEG,
  parsePosition,
  planeCourse,
  planeRun,
  rhumb,
  rhumbPoint,
  throughWaterFor,
  traverseRun,
  type CourseDistance,
} from '../../lib/geo/index.ts';
import { degFromRad, radFromDeg } from '../../lib/units/index.ts';
import type { CheckItem, Topic } from './check-item.ts';
import { fromTo, listIn, numberIn, positionIn, textIn } from './inputs.ts';

const way = ({ inputs }: CheckItem): CourseDistance => ({
  courseTowardDegTrue:
    inputs['courseRad'] === undefined ? numberIn(inputs, 'courseDeg') : degFromRad(numberIn(inputs, 'courseRad')),
  distanceNm: numberIn(inputs, 'distanceNm'),
});

const courseDistance = ({ courseTowardDegTrue, distanceNm }: CourseDistance): Record<string, number> => ({
  courseDeg: courseTowardDegTrue,
  initialCourseDeg: courseTowardDegTrue,
  distanceNm,
});

const current = ({ inputs }: CheckItem): { setTowardDegTrue: number; driftKn: number } => ({
  setTowardDegTrue: numberIn(inputs, 'setDeg'),
  driftKn: numberIn(inputs, 'driftKn'),
});

function greatCircleAnswers(item: CheckItem): Record<string, unknown> {
  const { from, to } = fromTo(item);
  const circle = greatCircle(from, to);
  const vertex = greatCircleVertex(from, to);
  return {
    ...courseDistance(circle),
    distanceRad: radFromDeg(circle.distanceNm / NM_PER_DEG),
    vertexLat: vertex.lat,
    vertexLon: vertex.lon,
  };
}

function crossTrackAnswers(item: CheckItem): Record<string, unknown> {
  const { offNm, alongNm } = crossTrack(fromTo(item), positionIn(item.inputs, 'point'));
  return { xtdNm: Math.abs(offNm), side: offNm >= 0 ? 'right' : 'left', atdNm: alongNm };
}

function runAnswers(run: { readonly northNm: number; readonly eastNm: number }): Record<string, unknown> {
  return {
    northNm: run.northNm,
    southNm: -run.northNm,
    eastNm: run.eastNm,
    westNm: -run.eastNm,
    dLatMin: run.northNm,
    departureNm: run.eastNm,
    ...courseDistance(planeCourse(run)),
  };
}

function traverseAnswers({ inputs }: CheckItem): Record<string, unknown> {
  const ways = listIn(inputs, 'legs').map((leg) => {
    const [courseTowardDegTrue, distanceNm] = Array.isArray(leg) ? (leg as unknown[]) : [];
    if (typeof courseTowardDegTrue === 'number' && typeof distanceNm === 'number')
      return { courseTowardDegTrue, distanceNm };
    throw new Error(`inputs.legs holds ${JSON.stringify(leg)}, [course, distance] was expected`);
  });
  return runAnswers(traverseRun(ways));
}

function runOf({ inputs }: CheckItem): { northNm: number; eastNm: number } {
  const north = inputs['northNm'] ?? -Number(inputs['southNm']);
  const east = inputs['eastNm'] ?? -Number(inputs['westNm']);
  return { northNm: Number(north), eastNm: Number(east) };
}

function steerAnswers(item: CheckItem): Record<string, unknown> {
  const sailed = {
    towardDegTrue: numberIn(item.inputs, 'courseToMakeGood'),
    speedKn: numberIn(item.inputs, 'speedThroughWaterKn'),
  };
  const steered = courseToSteer(sailed, current(item));
  return {
    impossible: steered === null,
    steerDeg: steered?.headingTowardDegTrue ?? null,
    speedMadeGoodKn: steered?.madeGoodKn ?? null,
  };
}

function madeGoodAnswers(item: CheckItem): Record<string, unknown> {
  const throughWater = {
    towardDegTrue: numberIn(item.inputs, 'headingDeg'),
    speedKn: numberIn(item.inputs, 'speedThroughWaterKn'),
  };
  const made = madeGood(throughWater, current(item));
  return { courseMadeGoodDeg: made.towardDegTrue, speedMadeGoodKn: made.speedKn };
}

function requiredAnswers(item: CheckItem): Record<string, unknown> {
  const overGround = {
    towardDegTrue: numberIn(item.inputs, 'trackDeg'),
    speedKn: numberIn(item.inputs, 'speedMadeGoodKn'),
  };
  const steered = throughWaterFor(overGround, current(item));
  return { steerDeg: steered.towardDegTrue, speedKn: steered.speedKn };
}

function parsedAnswers({ inputs, id }: CheckItem): Record<string, unknown> {
  const at = parsePosition(textIn(inputs, 'text'), id);
  return at.ok ? { ...at.value } : { lat: null, lon: null };
}

export const navigationTopics: readonly Topic[] = [
  {
    topic: 'speed-time-distance',
    compute: ({ inputs }) => ({
      nm: distanceRunNm({ speedKn: numberIn(inputs, 'speedKn'), durationMin: numberIn(inputs, 'minutes') }),
    }),
  },
  { topic: 'great-circle-sphere', compute: greatCircleAnswers },
  {
    topic: 'great-circle-point',
    compute: (item) => ({ ...greatCirclePoint(positionIn(item.inputs, 'from'), way(item)) }),
  },
  {
    topic: 'great-circle-fraction',
    compute: (item) => ({ ...greatCircleFraction(fromTo(item), numberIn(item.inputs, 'fraction')) }),
  },
  {
    topic: 'great-circle-lat-at-lon',
    compute: (item) => ({ lat: greatCircleLatAtLon(fromTo(item), numberIn(item.inputs, 'lon')) }),
  },
  { topic: 'cross-track', compute: crossTrackAnswers },
  {
    topic: 'mercator-sailing',
    compute: (item) => {
      const { from, to } = fromTo(item);
      return courseDistance(rhumb(from, to));
    },
  },
  {
    topic: 'mercator-sailing-direct',
    compute: (item) => ({ ...rhumbPoint(positionIn(item.inputs, 'from'), way(item)) }),
  },
  {
    topic: 'mid-latitude-direct',
    compute: (item) => ({ ...midLatitudePoint(positionIn(item.inputs, 'from'), way(item)) }),
  },
  {
    topic: 'mid-latitude-inverse',
    compute: (item) => {
      const { from, to } = fromTo(item);
      return courseDistance(midLatitudeCourse(from, to));
    },
  },
  { topic: 'plane-sailing', compute: (item) => runAnswers(planeRun(way(item))) },
  { topic: 'plane-sailing-inverse', compute: (item) => courseDistance(planeCourse(runOf(item))) },
  { topic: 'traverse-sailing', compute: traverseAnswers },
  {
    topic: 'parallel-sailing',
    compute: ({ inputs }) => ({
      departureNm: departureNm({ latDeg: numberIn(inputs, 'lat'), dLonDeg: numberIn(inputs, 'dLonMin') / 60 }),
    }),
  },
  {
    topic: 'parallel-sailing-inverse',
    compute: ({ inputs }) => ({
      dLonMin: dLonDegOf({ latDeg: numberIn(inputs, 'lat'), eastNm: numberIn(inputs, 'departureNm') }) * 60,
    }),
  },
  { topic: 'course-to-steer', compute: steerAnswers },
  { topic: 'course-made-good', compute: madeGoodAnswers },
  { topic: 'required-heading-and-speed', compute: requiredAnswers },
  {
    topic: 'format-ddm',
    compute: ({ inputs }) => ({ text: formatPosition(positionIn(inputs), numberIn(inputs, 'decimals')) }),
  },
  { topic: 'parse-ddm', compute: parsedAnswers },
];
