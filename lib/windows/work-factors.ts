import type { Levels } from '../boat/index.ts';
import type { Step } from '../jobs/index.ts';
import { isUnsteady } from './limit-values.ts';

/** Pace at a limit level; between levels linear (design: 1 at ideal, 1.25 at caution, 1.8 at no-go): our default, no source. */
const PACE_AT_CAUTION_RATIO = 1.25;
const PACE_AT_NO_GO_RATIO = 1.8;
/** Nothing of wind and sea slows a step more. */
export const MOST_PACE_RATIO = PACE_AT_NO_GO_RATIO;

/** What slows a step at one instant in one scenario. NaN: not known, and then it slows nothing (the limit is unknown anyway). */
export interface PaceWeather {
  readonly deckWindKn: number;
  readonly seaHeightM: number;
  readonly trueWindKn: number;
}

/** What makes the pace of a step depend on the weather. */
export interface PaceRule {
  readonly deckWindKn: Levels | null;
  readonly seaHeightM: Levels | null;
  /** Worked on deck, where a boat that nothing steadies slows the work. */
  readonly isSlowedUnsteady: boolean;
}

export function paceRuleOf(step: Step, steadyingWindRule: boolean): PaceRule {
  const isOnDeck = step.place === 'deck' || step.place === 'foredeck';
  return {
    deckWindKn: step.limits.deckWindKn,
    seaHeightM: step.limits.seaHeightM,
    isSlowedUnsteady: steadyingWindRule && isOnDeck,
  };
}

/** Time factor of wind and sea between ideal and no-go, by the worse of the two; beyond no-go it stays at 1.8. */
export function paceRatio(rule: PaceRule, weather: PaceWeather): number {
  const byWindRatio = levelPaceRatio(weather.deckWindKn, rule.deckWindKn);
  const bySeaRatio = levelPaceRatio(weather.seaHeightM, rule.seaHeightM);
  const byLevelsRatio = byWindRatio > bySeaRatio ? byWindRatio : bySeaRatio;
  if (!rule.isSlowedUnsteady || byLevelsRatio >= PACE_AT_CAUTION_RATIO) return byLevelsRatio;
  const isRolling = isUnsteady({ windKn: weather.trueWindKn, seaHeightM: weather.seaHeightM });
  return isRolling ? PACE_AT_CAUTION_RATIO : byLevelsRatio;
}

function levelPaceRatio(value: number, levels: Levels | null): number {
  // Unknown fails the comparison.
  if (levels === null || !(value > levels.ideal)) return 1;
  const { ideal, caution, noGo } = levels;
  if (value <= caution) return 1 + (PACE_AT_CAUTION_RATIO - 1) * ((value - ideal) / (caution - ideal));
  const beyondShare = noGo > caution ? Math.min(1, (value - caution) / (noGo - caution)) : 1;
  return PACE_AT_CAUTION_RATIO + (PACE_AT_NO_GO_RATIO - PACE_AT_CAUTION_RATIO) * beyondShare;
}
