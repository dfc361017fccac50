/** Random worlds for comparing window tables with the plain evaluation: every limit, unknown values, several steps. */
import fc from 'fast-check';
import type { Levels } from '../../lib/boat/index.ts';
import type { Job, Place, Step, StepLimits } from '../../lib/jobs/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import type { TableSettings } from '../../lib/windows/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littleStep } from '../planner/little-world.ts';
import { slotOf, tableConditions, withLight } from './table-world.ts';

export interface DrawnTable {
  readonly conditions: Conditions;
  readonly job: Job;
  readonly handlingId: string;
  readonly settings: Partial<TableSettings>;
  readonly tiredRatio: number;
  readonly resumeMin: number;
}

const SLOTS = 50;

/** Values that change every few slots, some of them unknown. */
const course = (values: readonly number[], unknownWeight: number): fc.Arbitrary<(hourH: number) => number> =>
  fc
    .array(
      fc.oneof(
        { weight: 100, arbitrary: fc.constantFrom(...values) },
        { weight: unknownWeight, arbitrary: fc.constant(Number.NaN) },
      ),
      { minLength: SLOTS / 5, maxLength: SLOTS / 5, size: 'max' },
    )
    .map((drawn) => (hourH) => drawn[Math.floor(slotOf(hourH) / 5)] ?? Number.NaN);

const winds = [0, 4, 4.9, 5, 8, 10, 12.5, 15, 18, 24];
const seas = [0.3, 0.8, 0.81, 1, 1.2, 1.5, 2, 3];

const scenario: fc.Arbitrary<LittleWeather> = fc.record({
  windKn: course(winds, 2),
  gustKn: course([6, 12, 20, 28], 8),
  windFromDegTrue: course([0, 90, 200, 330], 0),
  seaHeightM: course(seas, 2),
});

const few = fc.array(scenario, { minLength: 1, maxLength: 5 });
const moreThanAWord = fc.array(scenario, { minLength: 33, maxLength: 35, size: 'max' });

const ownForAll = fc.record({
  wavePeriodS: fc.constantFrom(4, 7, 9, Number.NaN),
  rainMmPerH: course([0, 0, 0, 0.1, 0.4], 4),
  airC: course([-4, 2, 9, 15], 8),
  seaWaterC: course([8, 14, 20], 8),
  visibilityNm: course([0.4, 1, 3, 9], 8),
});

/** Most steps have few limits, else nothing would ever hold. */
const seldom = <T>(drawn: fc.Arbitrary<T>): fc.Arbitrary<T | null> =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: drawn });

const levels = (from: readonly number[]): fc.Arbitrary<Levels | null> =>
  seldom(
    fc
      .tuple(fc.constantFrom(...from), fc.constantFrom(0, 0.3, 1), fc.constantFrom(0, 0.5, 1))
      .map(([ideal, first, second]) => ({
        ideal,
        caution: ideal * (1 + first),
        noGo: ideal * (1 + first) * (1 + second),
      })),
  );

const limits: fc.Arbitrary<Partial<StepLimits>> = fc.record({
  deckWindKn: levels([6, 10, 14]),
  deckGustNoGoKn: seldom(fc.constantFrom(18, 26)),
  seaHeightM: levels([0.8, 1.2, 2]),
  steepnessNoGoRatio: seldom(fc.constantFrom(0.015, 0.04)),
  daylight: fc.constantFrom('required', 'not-needed', 'not-needed', 'not-needed'),
  rain: fc.constantFrom('none', 'any', 'any', 'any'),
  airLeastC: seldom(fc.constantFrom(0, 9)),
  seaWaterLeastC: seldom(fc.constant(14)),
  visibilityLeastNm: seldom(fc.constantFrom(1, 2)),
  dryBeforeH: seldom(fc.constantFrom(0.5, 1.2)),
});

const step = (id: string): fc.Arbitrary<Step> =>
  fc
    .record({
      limits,
      minutes: fc.constantFrom(10, 25, 60),
      place: fc.constantFrom<Place>('below', 'deck', 'foredeck', 'aloft', 'overside'),
      darkFactorRatio: fc.constantFrom(1, 1.3, 2),
      hands: fc.constantFrom('gross', 'medium', 'fine'),
      effort: fc.constantFrom('light', 'moderate', 'heavy'),
      lookout: fc.constantFrom('full', 'full', 'full', 'glances', 'none'),
    })
    .map(({ minutes, limits: own, ...rest }) => ({ ...littleStep(id, minutes, own), ...rest, safePointAfter: false }));

const session = { longestMin: 90, restMin: 20, leastUsefulMin: 30, resumeMin: 5, makeSafeMin: 10 };

const job: fc.Arbitrary<Job> = fc
  .tuple(step('a'), fc.option(step('b')), fc.option(step('c')), fc.boolean())
  .map(([a, b, c, isSewing]) => {
    const steps = [a, b, c].filter((drawn) => drawn !== null);
    const kind = isSewing ? ({ stop: 'anywhere', session } as const) : {};
    return littleJob(
      'drawn',
      steps.map((drawn) => ({ ...drawn, ...kind })),
    );
  });

export const drawnTable: fc.Arbitrary<DrawnTable> = fc
  .record({
    scenarios: fc.oneof({ weight: 6, arbitrary: few }, { weight: 1, arbitrary: moreThanAWord }),
    common: ownForAll,
    lights: course([0, 1, 2, 3], 0),
    boatSpeedKn: fc.constantFrom(0, 5),
    job,
    handlingId: fc.constantFrom('hold-course', 'run-off', 'heave-to'),
    settings: fc.record({
      limitRatio: fc.constantFrom(1, 0.94),
      contingencyShare: fc.constantFrom(0.3, 0.5),
      contingencyLeastMin: fc.constantFrom(10, 30),
      steadyingWindRule: fc.boolean(),
      ownPaceRatioOf: fc.constantFrom(
        () => 1,
        (_jobId: string, stepId: string) => (stepId === 'a' ? 1.2 : 1.1),
      ),
      gloves: fc.constantFrom('none', 'thin', 'thick'),
    }),
    tiredRatio: fc.constantFrom(1, 1.15),
    resumeMin: fc.constantFrom(0, 5),
  })
  .map(({ scenarios, common, lights, boatSpeedKn, settings, ...rest }) => {
    const [first, ...others] = scenarios;
    const weathers = first === undefined ? [] : [{ ...first, ...common }, ...others];
    const setting = { boatSpeedKn, deckHeightM: 2, slotCount: SLOTS };
    const conditions = withLight(tableConditions(weathers, setting), (slot) => lights(slot / 6));
    const weights = Int32Array.from({ length: scenarios.length }, (_, w) => w + 1);
    return { ...rest, conditions, settings: { ...settings, weights } };
  });
