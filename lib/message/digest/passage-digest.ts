/** The digest of a passage: the way is the one the boat would sail without stopping. */
import { buildScenarioSet, type Forecast, sampleReference } from '../../forecast/index.ts';
import type { Passage } from '../../passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import { formatUtc, MS_PER_H, slotGrid } from '../../time/index.ts';
import { measureTrack } from '../../track/index.ts';
import { sailNominal } from '../../voyage/index.ts';
import { type Digest, STEP_H } from './digest.ts';
import { digestOf } from './make-digest.ts';

export interface PassageDigestInput {
  readonly passage: Passage;
  readonly forecast: Forecast;
  readonly nowEpochMs: number;
  /** How far ahead, 3 to 240 h; no farther than the forecast. */
  readonly aheadH: number;
  /** Characters the packed digest may take. */
  readonly mostCharacterCount: number;
}

const LEAST_AHEAD_H = 3;
const MOST_AHEAD_H = 240;

/**
 * Makes the digest of the weather ahead of a boat, from the full three hours (UTC) before now.
 *
 * @returns `message.digest-hours` for hours outside 3 to 240; `message.no-forecast` where the forecast holds no wind on
 *   the way; `message.digest-too-long` where it does not fit even without the differences of members
 */
export function digestOfPassage(input: PassageDigestInput): Result<Digest> {
  const { passage, forecast, nowEpochMs, aheadH } = input;
  if (!(aheadH >= LEAST_AHEAD_H && aheadH <= MOST_AHEAD_H)) return failed(hoursProblem(aheadH));
  const stepMs = STEP_H * MS_PER_H;
  const fromEpochMs = Math.max(nowEpochMs, passage.start.epochMs);
  const firstEpochMs = Math.floor(fromEpochMs / stepMs) * stepMs;
  const lastEpochMs = Math.min(fromEpochMs + aheadH * MS_PER_H, forecast.endEpochMs);
  const isLastWhole = lastEpochMs < forecast.endEpochMs;
  const stepCount = Math[isLastWhole ? 'ceil' : 'floor']((lastEpochMs - firstEpochMs) / stepMs) + 1;
  if (stepCount < 2) return failed(noForecast(forecast, fromEpochMs));
  const placeAt = nominalPlaces(input, firstEpochMs + (stepCount - 1) * stepMs);
  const digest = digestOf({ forecast, placeAt, firstEpochMs, stepCount, mostCharacterCount: input.mostCharacterCount });
  if (digest === 'no wind') return failed(noForecast(forecast, fromEpochMs));
  return digest === 'too long' ? failed(tooLong(input)) : ok(digest);
}

/** Place by instant of the voyage without stopping; before the start it is the start. */
function nominalPlaces(
  { passage, forecast }: PassageDigestInput,
  toEpochMs: number,
): Parameters<typeof digestOf>[0]['placeAt'] {
  const { start, settings } = passage;
  const set = buildScenarioSet(forecast, {
    errorModel: 'none',
    purpose: 'planning',
    seed: settings.seed,
    spreadInflationRatio: 1,
    gustRatio: settings.gustRatio,
  });
  const grid = slotGrid(
    { fromEpochMs: start.epochMs, toEpochMs: Math.max(toEpochMs, start.epochMs + MS_PER_H) },
    settings.slotMin,
  );
  const course = sailNominal({
    boat: passage.boat,
    sailStateId: start.sailStateId,
    track: measureTrack(passage.track),
    grid,
    sampleReference: (points) => sampleReference(set, points),
  });
  return (epochMs) => {
    const slot = Math.round((epochMs - grid.firstEpochMs) / (grid.slotMin * 60_000));
    const index = Math.min(Math.max(0, slot), grid.slotCount - 1);
    return { lat: course.lat[index] ?? start.position.lat, lon: course.lon[index] ?? start.position.lon };
  };
}

const hoursProblem = (aheadH: number): Problem => ({
  code: 'message.digest-hours',
  where: 'hours',
  what: `${aheadH} h are asked for.`,
  expected: `${LEAST_AHEAD_H} to ${MOST_AHEAD_H} h`,
  remedy: 'Ask for 48 or 96.',
});

const noForecast = (forecast: Forecast, fromEpochMs: number): Problem => ({
  code: 'message.no-forecast',
  where: 'forecast',
  what: `It holds no wind on the way from ${formatUtc(fromEpochMs)} on; it ends at ${formatUtc(forecast.endEpochMs)}.`,
  expected: `at least ${STEP_H} h of wind ahead of the boat`,
  remedy: 'Get a newer forecast, of the area the boat is in.',
});

const tooLong = ({ mostCharacterCount, aheadH }: PassageDigestInput): Problem => ({
  code: 'message.digest-too-long',
  where: 'length',
  what: `${aheadH} h do not fit into ${mostCharacterCount} characters.`,
  expected: 'room for the wind, the sea and the lanes of every step',
  remedy: 'Allow more parts, or ask for fewer hours.',
});
