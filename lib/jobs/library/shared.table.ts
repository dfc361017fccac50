/** Limits and steps that several jobs of the library share. */
import type { SourceId } from '../../sources/index.ts';
import { COMMON_PRACTICE, OUR_DEFAULT } from '../provenance.ts';
import type { LibraryEntry } from './entry.ts';
import { limits, type LibraryStep, minutes } from './write.ts';

export const AS_SHE_GOES = ['hold-course', 'run-off', 'heave-to'];
export const BEFORE_THE_WIND = ['run-off', 'broad-reach'];
/** With the mainsail down she cannot heave to. */
export const AS_SHE_GOES_MAIN_DOWN = ['hold-course', ...BEFORE_THE_WIND];
/** A headsail is set or can be rolled out. */
export const WITH_HEADSAIL = ['full-main', 'deep-reef', 'headsail-only'];

/** Where the tether is clipped. */
export const CLIP = {
  cockpit: 'Fixed point in the cockpit, before the hatch is left.',
  mast: 'Fixed point at the foot of the mast, to windward, shortest tether.',
  deck: 'Fixed point beside the work, to windward, shortest tether; the jackstay only on the way.',
  boom: 'Fixed point below the boom, to windward, shortest tether; the jackstay only on the way.',
  bow: 'Fixed point on the centreline at the bow, shortest tether; the jackstay only on the way.',
} as const;

/** A figure of a source, with what of it is meant. */
export const cited = (id: SourceId, note: string): string => `${id} (${note})`;

/** Provenance of most jobs: the trade’s; how fine the hands must be and how far the eye must see are ours. */
export const PRACTICE: LibraryEntry['provenance'] = {
  '*': COMMON_PRACTICE,
  '*.hands': OUR_DEFAULT,
  '*.visibilityLeastNm': OUR_DEFAULT,
  '*.materials': `${COMMON_PRACTICE}; one figure of its range`,
  '*.session': `${COMMON_PRACTICE} (longest, rest, taking up again); ${OUR_DEFAULT} (least useful, making safe)`,
};

/** Forecasts hold no roll: light air and an old swell are the eye's business. */
const NO_OLD_SWELL = 'No old swell from abeam rolls her while the wind is under 5 kn.';
const NO_DEW = 'No dew: in air over 80 % damp not from an hour before sunset to two hours after sunrise.';

export const SEWING: NonNullable<LibraryStep['session']> = {
  longestMin: 75,
  restMin: 20,
  leastUsefulMin: 30,
  resumeMin: 5,
  makeSafeMin: 10,
};

const SETTLE = limits([20, 28, 40], [3, 4.5, 6], { daylight: 'not-needed' });
export const DROP = limits([12, 18, 26], [2, 3, 4], {
  deckGustNoGoKn: 32,
  steepnessNoGoRatio: 0.045,
  byEye: [NO_OLD_SWELL],
});
const FLAKE = limits([12, 18, 25], [2, 3, 4], { deckGustNoGoKn: 30 });
export const HOIST = limits([12, 17, 23], [1.8, 2.6, 3.5], {
  deckGustNoGoKn: 28,
  steepnessNoGoRatio: 0.045,
  byEye: ['The wind over the deck stays within 45 degrees of the bow.'],
});
export const UNBEND = limits([8, 12, 16], [1.2, 1.8, 2.5], {
  deckGustNoGoKn: 20,
  steepnessNoGoRatio: 0.035,
  daylight: 'required',
  byEye: [NO_OLD_SWELL],
});
export const BEND_ON = limits([7, 11, 14], [1.2, 1.8, 2.3], {
  deckGustNoGoKn: 18,
  steepnessNoGoRatio: 0.035,
  daylight: 'required',
  byEye: [NO_OLD_SWELL],
});
export const JIB_DROP = limits([10, 15, 20], [1.5, 2.3, 3], {
  deckGustNoGoKn: 24,
  steepnessNoGoRatio: 0.04,
  visibilityLeastNm: 1,
});
export const JIB_CHANGE = limits([10, 14, 18], [1.5, 2.2, 3], {
  deckGustNoGoKn: 22,
  steepnessNoGoRatio: 0.04,
  visibilityLeastNm: 1,
  byEye: [NO_OLD_SWELL],
});
export const REEF = limits([24, 32, 42], [3.5, 5, 7], { daylight: 'not-needed' });
export const UNREEF = limits([14, 18, 22], [2.5, 3.5, 4.5], { daylight: 'not-needed' });
const SEW = limits([8, 12, 16], [1.8, 2.5, 3.2], {
  deckGustNoGoKn: 20,
  byEye: ['She rolls less than 15 degrees each way.', NO_OLD_SWELL],
});
export const SEW_BELOW = limits([18, 24, 28], [2.2, 3, 3.8], {
  daylight: 'not-needed',
  byEye: ['She rolls less than 20 degrees each way.', 'A way out past the cloth stays open.'],
});
export const CORNER = limits([8, 13, 17], [2, 2.8, 3.5], { deckGustNoGoKn: 20 });
export const POCKET = limits([8, 12, 16], [1.8, 2.5, 3], { deckGustNoGoKn: 20 });
export const SUN_STRIP = limits([10, 14, 18], [1.3, 2, 2.6], {
  deckGustNoGoKn: 22,
  daylight: 'required',
  visibilityLeastNm: 1,
  byEye: [NO_OLD_SWELL],
});
export const DRY_OFF = limits([12, 18, 25], [2, 3, 4], {
  rain: 'none',
  byEye: ['The air is under 85 % damp.', NO_DEW],
});
export const PATCH = limits([8, 12, 15], [1.8, 2.5, 3.2], {
  deckGustNoGoKn: 18,
  rain: 'none',
  airLeastC: 10,
  byEye: ['The cloth is dry to the hand: no spray, no dew.', 'The air is under 85 % damp.', NO_DEW],
});
export const GLUE = limits([8, 12, 15], [1.5, 2.2, 3], {
  deckGustNoGoKn: 18,
  rain: 'none',
  airLeastC: 5,
  byEye: ['The cloth is dry to the hand: no spray, no dew.', NO_DEW],
});
export const SWAP = limits([8, 12, 16], [1.5, 2, 2.5], { deckGustNoGoKn: 20 });
export const BENCH = limits([18, 25, 35], [2, 3, 4], {
  daylight: 'not-needed',
  airLeastC: 10,
  byEye: ['The parts to be bonded are dry.'],
});
export const BOX = limits([20, 30, 40], [2, 3, 4], { daylight: 'not-needed' });

/** Where a mile must be seen: the foredeck, and a sail on its way down or up. */
export const seenAMile = (of: LibraryStep['limits']): LibraryStep['limits'] => ({ ...of, visibilityLeastNm: 1 });

export const settle: LibraryStep = {
  id: 'settle',
  name: 'Settle her: look round, put her in the handling, watch that she holds',
  place: 'cockpit',
  work: minutes(8, 15, 33),
  stop: 'anywhere',
  lookout: 'full',
  effort: 'light',
  hands: 'gross',
  limits: SETTLE,
  darkFactorRatio: 1.2,
  session: { resumeMin: 3 },
  clipTo: CLIP.cockpit,
  instructions: [
    'Look all round and at the traffic display; the next half hour must be clear.',
    'Note barometer, wind, heading and time.',
    'Alter to the handling, then watch for five to ten minutes: does she yaw, roll or round up?',
    'No rope trails in the water.',
    'Set the look-out timer; tell the shore contact if you use one.',
  ],
};

export const flake: LibraryStep = {
  id: 'flake',
  name: 'Flake the sail from the leech',
  place: 'deck',
  work: minutes(8, 15, 30),
  stop: 'anywhere',
  hands: 'gross',
  limits: FLAKE,
  session: { resumeMin: 3 },
  clipTo: CLIP.boom,
  instructions: [
    'Check that the boom is held on both sides before you lean on it.',
    'Pull the leech aft and lay the folds half a boom height deep, a side each way.',
    'Keep a tie on all cloth that is not in your hands.',
  ],
};

export const lash: LibraryStep = {
  id: 'lash',
  name: 'Lash it for the wind to come',
  place: 'deck',
  work: minutes(7, 11, 22),
  stop: 'anywhere',
  hands: 'gross',
  limits: FLAKE,
  session: { resumeMin: 3 },
  safePointAfter: true,
  clipTo: CLIP.boom,
  materials: [{ item: 'sail ties', amount: 6, unit: 'pieces' }],
  instructions: [
    'A tie every metre or so, from the clew forward.',
    'A second lashing in a spiral if more than 25 kn are to come.',
    'Look that no tie lies on a seam, a batten end or the damage.',
  ],
};

export const layOut: LibraryStep = {
  id: 'lay-out',
  name: 'Lay out, tape the edges together, mark rows, cut and wax twine',
  place: 'deck',
  work: minutes(15, 28, 50),
  stop: 'anywhere',
  effort: 'light',
  hands: 'fine',
  limits: SEW,
  darkFactorRatio: 1.4,
  session: SEWING,
  clipTo: CLIP.boom,
  instructions: [
    'Bring the damage over a board on your knees, the rest of the sail stays lashed.',
    'Cross-tape the edges every 50-80 mm, weave in line.',
    'Mark a line each side and a tick every 5-6 mm.',
    'Cut the twine an arm long, doubled, and wax it; thread more than one needle.',
  ],
};

/** Minutes of the sewing step hold for 1 m of one row in tough laminate; a job's own seam replaces them. */
export const sew: LibraryStep = {
  id: 'sew',
  name: 'Sew herringbone',
  place: 'deck',
  work: minutes(400 / 3, 200, 300),
  stop: 'anywhere',
  effort: 'light',
  hands: 'fine',
  limits: SEW,
  darkFactorRatio: 1.4,
  session: SEWING,
  clipTo: CLIP.boom,
  instructions: [
    'Up through one lip, across, down, and cross over; stagger the holes so that they do not lie in one thread of the weave.',
    'If the needle will not pass: awl, or a slow drill of the needle’s size run backwards.',
    'Lock every 100 mm. Pull snug, not puckered.',
    'Stop, look round and rest the hands at the end of each session.',
  ],
};

export const fastenOff: LibraryStep = {
  id: 'fasten-off',
  name: 'Tie off, tape over, check',
  place: 'deck',
  work: minutes(8, 14, 25),
  stop: 'anywhere',
  effort: 'light',
  hands: 'fine',
  limits: SEW,
  darkFactorRatio: 1.4,
  session: SEWING,
  clipTo: CLIP.boom,
  instructions: [
    'Lock the last stitch twice and bury the end.',
    'Tape over the seam so that nothing catches it.',
    'Pull across the seam by hand and look for a stitch that gapes.',
    'Count the needles back into their tube.',
  ],
};

/** Whose figures the sewing of a seam goes by. */
export const SEAM_PROVENANCE: LibraryEntry['provenance'] = {
  ...PRACTICE,
  'sew.work': 'worked out from 0.20, 0.30 and 0.45 m/h of one row (common practice, no source)',
  'sew.materials': 'worked out from the seam: twine by stitch and row, needles by length (common practice, no source)',
  'sew.instructions': cited('SEAM_ACCOUNT_2013', 'the drill run backwards; the rest common practice, no source'),
};
