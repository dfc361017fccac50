import type { Forecast } from './forecast.ts';
import type { Series } from './frame.ts';
import { CONTROL_ID } from './match-field.ts';
import { type QuantityId, quantityOf } from './quantity.ts';
import { askedPoints, type AskedPoints, samplePair, sampleSingle } from './sample-series.ts';
import { bracketTimes } from './time-bracket.ts';
import type { CoursePoints } from './weather-along.ts';

/** `no-hour`: it has not begun, has ended, or its steps are too far apart; `no-place`: outside of its area, or land. */
export type KnownState = 'known' | 'no-hour' | 'no-place';

/** What a forecast says of a quantity, point by point. */
export interface KnownAlong {
  readonly quantity: QuantityId;
  readonly states: readonly KnownState[];
}

/** Planned with in every member; of the rest the reference run alone is read. */
const BY_MEMBER: ReadonlySet<QuantityId> = new Set(['wind', 'gust', 'seaHeight']);

/**
 * Whether a forecast says anything of the quantities it holds at places and instants, as a plan reads it: nothing is
 * extrapolated, and what one run it is planned with does not say is not known. Shifts in time of scenarios are left out.
 *
 * @returns one for each quantity held, in their order, with as many states as there are points
 */
export function knownAlong(forecast: Forecast, points: CoursePoints): readonly KnownAlong[] {
  const asked = askedPoints(points);
  return forecast.held.map((quantity) => {
    const runs = runsRead(forecast, quantity).map((series) => statesIn(asked, quantity, series));
    return { quantity, states: Array.from(points.epochMs, (_, i) => worst(runs, i)) };
  });
}

/** Series a plan reads of a quantity: of each member its own, or the control's. */
function runsRead(forecast: Forecast, quantity: QuantityId): Series[] {
  const { memberIds } = forecast;
  const reference = forecast.reference.get(quantity);
  if (!BY_MEMBER.has(quantity) || memberIds.length < 2) return reference === undefined ? [] : [reference];
  const members = forecast.series.get(quantity);
  const read = memberIds.flatMap((id) => members?.get(id) ?? members?.get(CONTROL_ID) ?? []);
  return [...new Set(read)];
}

function statesIn(asked: AskedPoints, quantity: QuantityId, series: Series): KnownState[] {
  const { epochMs } = asked.points;
  const { frameIndex } = bracketTimes(series, epochMs);
  const values =
    quantityOf(quantity).shape === 'pair' ? samplePair(asked, series, epochMs).u : sampleSingle(asked, series, epochMs);
  return Array.from(values, (value, i) => {
    if ((frameIndex[i] ?? -1) < 0) return 'no-hour';
    return Number.isNaN(value) ? 'no-place' : 'known';
  });
}

const worst = (runs: readonly (readonly KnownState[])[], i: number): KnownState =>
  runs.length === 0 ? 'no-hour' : (runs.find((states) => states[i] !== 'known')?.[i] ?? 'known');
