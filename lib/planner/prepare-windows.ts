import type { WindowSearch } from '../windows/index.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';

/** How windows are searched on the nominal voyage of a passage. */
export function windowSearch(preparation: Preparation): WindowSearch {
  const { passage, weather, lag, fromSlot } = preparation;
  return {
    handlings: passage.boat.handlings,
    sailStateId: passage.start.sailStateId,
    conditions: lag.conditionsAt(0),
    settings: tableSettings(passage, weather, 1),
    wantedProbability: passage.settings.wantedProbability,
    fromSlot,
  };
}
