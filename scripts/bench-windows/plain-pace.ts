import type { Levels } from '../../lib/boat/index.ts';
import type { Step } from '../../lib/jobs/index.ts';

/** Pace by the worse of wind and sea: 1 to ideal, 1.25 at caution, 1.8 at no-go and beyond, straight lines between. */
export function plainPaceRatio(
  step: Step,
  weather: { readonly deckWindKn: number; readonly seaHeightM: number; readonly trueWindKn: number },
  steadyingWindRule: boolean,
): number {
  const ratios = [
    byLevels(weather.deckWindKn, step.limits.deckWindKn),
    byLevels(weather.seaHeightM, step.limits.seaHeightM),
  ];
  const isOnDeck = step.place === 'deck' || step.place === 'foredeck';
  if (steadyingWindRule && isOnDeck && weather.trueWindKn < 5 && weather.seaHeightM > 0.8) ratios.push(1.25);
  return Math.max(...ratios);
}

function byLevels(value: number, levels: Levels | null): number {
  if (levels === null || Number.isNaN(value) || value <= levels.ideal) return 1;
  if (value <= levels.caution) {
    if (levels.caution === levels.ideal) return 1.25;
    return 1 + (1.25 - 1) * ((value - levels.ideal) / (levels.caution - levels.ideal));
  }
  if (value >= levels.noGo) return 1.8;
  return 1.25 + (1.8 - 1.25) * ((value - levels.caution) / (levels.noGo - levels.caution));
}
