/** What jobs on rig, steering, hull, engine and systems share: provenance, handlings, places to clip on, limits, steps. */
import { COMMON_PRACTICE, OUR_DEFAULT } from '../provenance.ts';
import { cited } from './shared.table.ts';
import { hours, limits, type LibraryStep, minutes } from './write.ts';

/** A step without what is its own. */
export type StepBase = Pick<LibraryStep, 'place' | 'limits'> & Partial<LibraryStep>;

/** Figures of the cards; how fine the hands must be and how far the eye must see are ours. */
export const PRACTICE = {
  '*': COMMON_PRACTICE,
  '*.hands': OUR_DEFAULT,
  '*.visibilityLeastNm': OUR_DEFAULT,
  '*.session': `${COMMON_PRACTICE} (taking up again); ${OUR_DEFAULT} (the rest)`,
};

export const ON_HER_WAY = ['hold-course', 'run-off', 'heave-to'];
/** Work below that is done whatever she does, gale included. */
export const WHATEVER_SHE_DOES = ['hold-course', 'run-off', 'heave-to', 'fore-reach', 'bare-poles', 'drogue'];
export const STEADY_FOR_CLIMBING = ['steady-reach', 'heave-to', 'motor-to-wind'];
export const LYING_QUIET = ['heave-to', 'lie-ahull', 'fore-reach'];
export const RUN_OR_HEAVE_TO = ['run-off', 'heave-to'];

export const AT_THE_MAST = 'Fixed point at the foot of the mast, to windward, shortest tether.';
export const ON_THE_SIDE_DECK =
  'Fixed point beside the work, to windward, shortest tether; the jackstay only on the way.';
export const AT_THE_BOW = 'Fixed point at the bow, to windward, shortest tether; the jackstay only on the way.';
export const AT_THE_STERN = 'Fixed point at the stern, inboard of the rail, shortest tether.';
export const IN_THE_COCKPIT = 'Fixed point in the cockpit.';
export const UP_THE_MAST = 'Two independent lines at every moment; tied in round the mast at every stop.';

export const FASTENER = limits([15, 22, 28], [2, 3, 4]);
export const ALOFT = limits([6, 9, 12], [0.8, 1.2, 1.6], {
  deckGustNoGoKn: 14,
  steepnessNoGoRatio: 0.02,
  daylight: 'required',
  rain: 'none',
  airLeastC: 6,
  byEye: ['She rolls less than 6 degrees each way.', 'Mast, steps and ropes are dry.'],
});
export const SPLICE = limits([25, 35, 45], [2.5, 3.5, 4.5], { daylight: 'not-needed' });
/** Aloft the eye must see far enough for a ship to show before the next chance to look. */
export const seenFromAloft = (of: typeof ALOFT): typeof ALOFT => ({ ...of, visibilityLeastNm: 2 });
export const seenFromTheBow = (of: typeof ALOFT): typeof ALOFT => ({ ...of, visibilityLeastNm: 1 });

export const FASTENER_SOAK_SOURCE = [
  cited('SEIZED_HARDWARE_2016', 'overnight'),
  cited('SEIZED_FASTENER_THREAD_2007', 'a day, better several, oiled again and again'),
].join('; ');

const fastener: StepBase = { place: 'deck', limits: FASTENER, clipTo: AT_THE_MAST };

export const oilFastener: LibraryStep = {
  ...fastener,
  id: 'oil',
  name: 'Brush, wash, shock and oil the fastener',
  work: minutes(4, 8, 15),
  stop: 'anywhere',
  effort: 'light',
  waitAfter: hours('soak', [6, 14, 48]),
  materials: [{ item: 'penetrating oil', amount: 10, unit: 'ml' }],
  instructions: [
    'Brush off salt and white powder, wash with fresh water, dry.',
    'Tap round the head and once square on it, then oil: 10 ml for each fastener and visit.',
    'Oil again every 4 to 8 hours, on each walk over the deck: 2 to 5 minutes.',
  ],
};

export const turnFastener: LibraryStep = {
  ...fastener,
  id: 'turn',
  name: 'Break the fastener loose and turn it',
  work: minutes(8, 22, 70),
  instructions: [
    'A bit that fills the head; impact driver or a long bar; a hair tighter first, then out.',
    'After 6 hours of soak about four in ten come loose, after 14 six, after two days three in four.',
    'Warm the aluminium, not the screw, and only where no plastic, rope, sail or oil vapour is near.',
    'The bit begins to slip: stop, oil, and try again later. A stripped head ends the try.',
  ],
};

export const riggedForClimbing: LibraryStep = {
  id: 'rig',
  name: 'Two independent lines, harness, tools on lanyards, rehearse at deck level',
  place: 'deck',
  work: minutes(20, 32, 55),
  stop: 'anywhere',
  effort: 'heavy',
  limits: ALOFT,
  darkFactorRatio: 3,
  safePointAfter: true,
  clipTo: AT_THE_MAST,
  instructions: [
    'Climbing line set up tight to a strong point at the mast foot, safety line on another halyard.',
    'Hang your weight on both, just above the deck: go up a metre, change over, come down.',
    'Helmet, padding, gloves, water; every tool on a lanyard, small parts in a closed bag.',
    'Tell the shore when you start and when you will be down.',
  ],
};

export const climbMast: LibraryStep = {
  id: 'climb',
  name: 'Climb',
  place: 'aloft',
  work: minutes(10, 22, 50),
  lookout: 'none',
  effort: 'heavy',
  limits: seenFromAloft(ALOFT),
  darkFactorRatio: 3,
  clipTo: UP_THE_MAST,
  instructions: [
    'Look all round before the first step: nothing in sight, alarm set.',
    'Climb on the lee side, legs round the mast; wait out the bigger rolls.',
    'Tie in and breathe at each pair of spreaders.',
  ],
};

export const comeDown: LibraryStep = {
  id: 'descend',
  name: 'Change over and come down',
  place: 'aloft',
  work: minutes(8, 14, 30),
  stop: 'never',
  lookout: 'none',
  effort: 'heavy',
  limits: seenFromAloft(ALOFT),
  darkFactorRatio: 3,
  clipTo: UP_THE_MAST,
  instructions: [
    'Count the tools into the bag.',
    'Weight on the descender before the climbing gear comes off; the safety line goes down with you.',
    'On deck: look all round, tell the shore, check that the halyards run.',
  ],
};

export const ALOFT_CAUTIONS = [
  'Ask first whether it can be done from deck, or wait for port.',
  'Nobody can lower you: two independent attachments at every moment.',
  'Helmet and padding: the mast swings further than it looks.',
  'Hanging still in a harness harms within minutes: keep the legs moving, stand in a loop.',
];
