import { adjustScenarioSet, type ScenarioSet, timingSdAtH, widenErrors } from '../../forecast/index.ts';
import type { ComparedForecast, ForecastMatch } from './forecast-match.ts';
import { matchForecast, type MatchOptions } from './match-forecast.ts';
import { shortMatchText } from './match-text.ts';
import { posteriorOf } from './posterior.ts';
import type { SeenWeather } from './seen-weather.ts';
import { shiftShares } from './shifts.ts';
import { scenarioLogs } from './weigh-scenarios.ts';

/**
 * Part of the weight that stays unweighted. However wrong the readings are, no later weather becomes less likely than a
 * tenth of what it was: a log score is never worse by more than ln 10, and on average by the hair told in the README.
 */
const UNWEIGHTED_SHARE = 0.1;
/** The same where agreement is poor: whatever explains the weather now, the scenarios do so badly. Ours. */
const POOR_UNWEIGHTED_SHARE = 0.5;
/** How much larger the errors of the forecast are taken where agreement is poor. Ours. */
const POOR_ERROR_RATIO = 1.3;

/**
 * The scenarios of a set weighed and shifted by what was seen on board; where nothing can be compared, as they were.
 *
 * Where agreement is poor, the forecast's errors are first taken 1.3 times as large, and half of the weight stays
 * unweighted. A set that takes its forecast at its word is left alone. Same set and match, same answer.
 */
export function adjustByLog(set: ScenarioSet, match: ForecastMatch): ScenarioSet {
  if (match.kind === 'nothing-to-compare') return match.readingCount === 0 ? set : noted(set, shortMatchText(match));
  const words = shortMatchText(match);
  if (set.errors === null)
    return noted(set, [
      ...words,
      'The forecast is taken at its word (errorModel none): nothing was weighed or shifted.',
    ]);
  return weighed(match.agreement === 'poor' ? widenErrors(set, POOR_ERROR_RATIO) : set, match, words);
}

function weighed(set: ScenarioSet, match: ComparedForecast, words: readonly string[]): ScenarioSet {
  const unweightedShare = match.agreement === 'poor' ? POOR_UNWEIGHTED_SHARE : UNWEIGHTED_SHARE;
  const posterior = posteriorOf({
    weights: set.weights,
    logs: scenarioLogs(set, { seen: match.seen, barometer: match.barometerBefore }),
    shiftShares: shiftShares(timingSdAtH(set, match.lastEpochMs) ?? 0),
    unweightedShare,
    seed: match.seed,
  });
  return adjustScenarioSet(noted(set, words), {
    weights: posterior.weights,
    shiftH: posterior.shiftH,
    seenAtEpochMs: match.lastEpochMs,
    referenceShiftH: match.timing.isShown ? (1 - unweightedShare) * match.timing.shiftH : 0,
    note:
      `Scenarios weighed and shifted by the log: worth ${Math.round(posterior.effectiveCount)} of ${set.scenarioCount}; ` +
      `${Math.round(100 * unweightedShare)} % of the weight stays with the forecast as it was.`,
  });
}

const noted = (set: ScenarioSet, words: readonly string[]): ScenarioSet => ({
  ...set,
  notes: [...set.notes, ...words],
});

/**
 * What the planner needs of a log: every scenario set of the plan's forecast, weighed and shifted by the same readings.
 *
 * @param observations up to the instant the plan is made
 */
export function seenByLog(
  observations: readonly SeenWeather[],
  options: MatchOptions = {},
): (set: ScenarioSet) => ScenarioSet {
  return (set) => adjustByLog(set, matchForecast(set, observations, options));
}
