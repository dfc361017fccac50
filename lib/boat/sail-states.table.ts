import type { SailState } from './boat.ts';

/**
 * Sail states of an ocean cruiser, used until the passage brings its own. Closest angles and area shares: common
 * practice, no source.
 */
export const DEFAULT_SAIL_STATES: readonly SailState[] = [
  {
    id: 'full-main',
    name: 'Full main and headsail',
    mainsail: 'full',
    headsail: true,
    areaRatio: 1,
    closestTwaDeg: 45,
  },
  {
    id: 'deep-reef',
    name: 'Deep-reefed main and small headsail',
    mainsail: 'reefed',
    headsail: true,
    areaRatio: 0.5,
    closestTwaDeg: 50,
  },
  { id: 'headsail-only', name: 'Headsail only', mainsail: 'none', headsail: true, areaRatio: 0.45, closestTwaDeg: 55 },
  // The share is the windage of hull and rig: 1.5, 3.9 and 4.9 kn dead before 10, 20 and 30 kn on the demo table. Bare
  // poles keep steerage only well off the wind.
  { id: 'bare-poles', name: 'Bare poles', mainsail: 'none', headsail: false, areaRatio: 0.03, closestTwaDeg: 120 },
];
