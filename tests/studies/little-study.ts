/** Studies small enough for a test run. */
import type { PassageKind } from '../../scripts/studies/passage.ts';

/** Three or four jobs in eighteen hours, half-hour slots. */
export const littleKind = (wantedProbability: number): PassageKind => ({
  jobCount: { least: 3, most: 4 },
  horizonH: 18,
  slotMin: 30,
  wantedProbability,
});
