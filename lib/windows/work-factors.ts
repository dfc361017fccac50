import type { Levels } from '../boat/index.ts';
import type { Step } from '../jobs/index.ts';
import { isUnsteady } from './limit-rules.ts';

/** Pace at a limit level; between levels linear (design: 1 at ideal, 1.25 at caution, 1.8 at no-go): our default, no source. */
const PACE_AT_CAUTION_RATIO = 1.25;
const PACE_AT_NO_GO_RATIO = 1.8;

/** What slows a step at one instant in one scenario. NaN: not known, and then it slows nothing (the limit is unknown anyway). */
export interface PaceWeather {
  readonly deckWindKn: number;
  readonly seaHeightM: number;
  readonly trueWindKn: number;
}

/** Time factor of wind and sea between ideal and no-go, by the worse of the two; beyond no-go it stays at 1.8. */
export function paceRatio(step: Step, weather: PaceWeather, steadyingWindRule: boolean): number {
  const { deckWindKn, seaHeightM } = step.limits;
  const byLevels = Math.max(
    deckWindKn === null ? 1 : levelPaceRatio(weather.deckWindKn, deckWindKn),
    seaHeightM === null ? 1 : levelPaceRatio(weather.seaHeightM, seaHeightM),
  );
  const onDeck = step.place === 'deck' || step.place === 'foredeck';
  const unsteady = isUnsteady({ windKn: weather.trueWindKn, seaHeightM: weather.seaHeightM });
  return steadyingWindRule && onDeck && unsteady ? Math.max(byLevels, PACE_AT_CAUTION_RATIO) : byLevels;
}

function levelPaceRatio(value: number, levels: Levels): number {
  if (Number.isNaN(value) || value <= levels.ideal) return 1;
  if (value <= levels.caution) {
    return 1 + (PACE_AT_CAUTION_RATIO - 1) * shareBetween(value, { ...levels, noGo: levels.caution });
  }
  const beyond = Math.min(1, shareBetween(value, { ...levels, ideal: levels.caution }));
  return PACE_AT_CAUTION_RATIO + (PACE_AT_NO_GO_RATIO - PACE_AT_CAUTION_RATIO) * beyond;
}

/** How far a value lies between two levels: 0 at the lower, 1 at the upper; 1 where they are the same. */
const shareBetween = (value: number, levels: Levels): number =>
  levels.noGo > levels.ideal ? (value - levels.ideal) / (levels.noGo - levels.ideal) : 1;
