import { OUR_DEFAULT } from '../provenance.ts';
import type { LibraryEntry } from './entry.ts';
import { AT_THE_STERN, IN_THE_COCKPIT, LYING_QUIET, PRACTICE, type StepBase } from './shared-rig.table.ts';
import { cited } from './shared.table.ts';
import { ANY_STATE, limits, minutes } from './write.ts';

const RAM = limits([18, 25, 32], [1.8, 2.8, 3.8], { daylight: 'not-needed' });
const BEARING = limits([10, 16, 20], [1.2, 1.8, 2.5], { daylight: 'not-needed' });
const QUADRANT = limits([15, 22, 28], [1.5, 2.5, 3.5], { daylight: 'not-needed' });
const STEER = limits([20, 28, 40], [2.5, 4, 5.5]);

const atRam: StepBase = { place: 'below', limits: RAM, darkFactorRatio: 1.1 };
const atBearing: StepBase = { place: 'below', limits: BEARING, darkFactorRatio: 1.1 };
const atQuadrant: StepBase = { place: 'below', limits: QUADRANT, darkFactorRatio: 1.1 };
const steering: StepBase = {
  place: 'cockpit',
  limits: STEER,
  effort: 'heavy',
  darkFactorRatio: 1.5,
  clipTo: IN_THE_COCKPIT,
};

export const STEERING_JOBS: readonly LibraryEntry[] = [
  {
    id: 'pilot-ram',
    name: 'Repair the autopilot ram',
    group: 'steering',
    sailStates: ANY_STATE,
    handlings: ['heave-to', 'fore-reach', 'lie-ahull'],
    steps: [
      {
        ...atRam,
        id: 'leave-her',
        name: 'Helm lashed: she looks after herself',
        place: 'cockpit',
        work: minutes(8, 15, 30),
        stop: 'anywhere',
        hands: 'gross',
        clipTo: IN_THE_COCKPIT,
        instructions: [
          'Put her in the handling, lash the helm, watch for ten minutes.',
          'A second pilot that steers is as good.',
          'Pilot breaker off, and a tag on it.',
        ],
      },
      {
        ...atRam,
        id: 'mend',
        name: 'Unpin the ram, inspect, tighten or swap',
        work: minutes(25, 60, 130),
        lookout: 'none',
        materials: [{ item: 'pilot ram spares', amount: 1, unit: 'pieces' }],
        instructions: [
          'Breaker off and tagged before a hand goes near the quadrant; the tiller is lashed too.',
          'A picture of it before the first pin; parts in a tray in their order.',
          'Try the play in both directions: pin, bush, mounting, then brushes or seals.',
          'Swap ram, brushes or seals as the maker says; a cloth under every oil joint.',
        ],
      },
      {
        ...atRam,
        id: 'prove',
        name: 'Bleed or align, run it for ten minutes',
        work: minutes(10, 20, 45),
        stop: 'anywhere',
        instructions: [
          'Lashing off, then the breaker on; hands away.',
          'Bleed until no bubble comes; set midships again.',
          'Stop to stop by the keypad, then ten minutes under way.',
        ],
      },
    ],
    cautions: [
      'The quadrant crushes hands: pilot off, helm lashed.',
      'A hot, oily locker makes anybody sick: come up for air every quarter of an hour.',
    ],
    pointOfNoReturn: 'A hydraulic line is open.',
    safePoints: ['The pin is out and the tiller lashed.', 'The pin is in.'],
    turnBack: 'Cap the open line, pin out, and steer by hand or wind vane, or leave her hove-to.',
    checksAfter: [
      { afterMin: 15, look: 'Pin, nuts and joints dry with the pilot at work.' },
      { afterMin: 60, look: 'Play, oil level and warmth of the drive.' },
    ],
    goesWith: ['quadrant', 'rudder-bearing'],
    needsTools: ['spanner set', 'hex keys', 'pliers', 'head torch'],
    provenance: PRACTICE,
  },
  {
    id: 'rudder-bearing',
    name: 'Take up a rudder bearing that knocks, plays or leaks',
    group: 'steering',
    sailStates: ANY_STATE,
    handlings: LYING_QUIET,
    steps: [
      {
        ...atBearing,
        id: 'inspect',
        name: 'Inspect, measure the play',
        work: minutes(10, 20, 40),
        stop: 'anywhere',
        safePointAfter: true,
        instructions: [
          'Slow her until the rudder carries nothing; helm lashed amidships.',
          'Hand on the stock while she rolls: where does it move, and by how many millimetres?',
          'Watch the gland for two minutes and count the drops.',
        ],
      },
      {
        ...atBearing,
        id: 'take-up',
        name: 'Shim, grease, tighten the gland or strap the stock',
        work: minutes(20, 60, 180),
        lookout: 'none',
        materials: [{ item: 'grease', amount: 20, unit: 'g' }],
        instructions: [
          'Bilge pump tried, soft plug and rags beside you.',
          'A shim of smooth plastic into the gap, or a strap round the stock to a strong point each side.',
          'Gland a quarter turn at a time, both nuts alike; then feel whether the stock still turns freely.',
          'The gland is slackened only as far as the packing needs, never taken off.',
        ],
      },
    ],
    cautions: [
      'Water can come in faster than one pump takes it: know the next watertight door or dam.',
      'The helm is lashed and the pilot off before hands go near the stock.',
    ],
    pointOfNoReturn: 'The gland is open: water comes in.',
    safePoints: ['Any time while the water joint is kept closed.'],
    turnBack: 'Gland closed hand-tight, stock strapped, and go on at less than six knots.',
    checksAfter: [
      { afterMin: 15, look: 'Bilge dry, stock turns freely, knock gone.' },
      { afterMin: 60, look: 'Bilge, gland and shim again; under six knots until then.' },
    ],
    goesWith: ['quadrant'],
    needsTools: ['spanner set', 'hammer', 'head torch'],
    provenance: { ...PRACTICE, 'take-up.materials': OUR_DEFAULT },
  },
  {
    id: 'quadrant',
    name: 'Tension or renew the steering cable or chain',
    group: 'steering',
    sailStates: ANY_STATE,
    handlings: LYING_QUIET,
    steps: [
      {
        ...atQuadrant,
        id: 'leave-her',
        name: 'Emergency tiller ready, helm lashed',
        place: 'cockpit',
        work: minutes(8, 15, 30),
        stop: 'anywhere',
        hands: 'gross',
        clipTo: IN_THE_COCKPIT,
        instructions: [
          'A pilot that drives the quadrant may still steer: try it first, it gives you time.',
          'Emergency tiller out of its locker and tried on the stock.',
          'She lies quiet; pilot breaker off, and a tag on it.',
        ],
      },
      {
        ...atQuadrant,
        id: 'renew',
        name: 'Lash the quadrant, tension or renew the cable, pins',
        work: minutes(20, 45, 110),
        lookout: 'none',
        materials: [{ item: 'split pins', amount: 2, unit: 'pieces' }],
        instructions: [
          'Lash the quadrant both ways before hands go in.',
          'Look along the whole run: sheaves, chain link, broken strands, bolts of the quadrant.',
          'Same tension on both sides, wheel amidships; lock nuts, new split pins.',
          'Lashing off, wheel slowly from stop to stop while you watch from outside the arc.',
        ],
      },
    ],
    cautions: ['The quadrant crushes hands: lashed both ways, pilot off, wheel tied.'],
    pointOfNoReturn: 'The cable is off.',
    safePoints: ['The quadrant is lashed.', 'Cable on and pinned.'],
    turnBack: 'Leave the cable off, lashing on the quadrant until the emergency tiller is shipped, and steer by that.',
    checksAfter: [
      { afterMin: 15, look: 'Tension alike both sides, pins in, cable in its sheaves.' },
      { afterMin: 60, look: 'A new cable has given: take it up.' },
    ],
    goesWith: ['rudder-bearing', 'pilot-ram'],
    needsTools: ['emergency tiller', 'spanner set', 'pliers', 'head torch'],
    provenance: { ...PRACTICE, 'renew.materials': OUR_DEFAULT },
  },
  {
    id: 'emergency-steer',
    name: 'Rig emergency steering: tiller, drogue or board',
    group: 'steering',
    sailStates: ANY_STATE,
    handlings: ['lie-ahull', 'heave-to', 'run-off'],
    steps: [
      {
        ...steering,
        id: 'stop-her',
        name: 'Stop her by balance, look, think',
        work: minutes(5, 15, 35),
        stop: 'anywhere',
        hands: 'gross',
        safePointAfter: true,
        instructions: [
          'Water first: is the tube of the rudder stock sound? If not, stop the leak before anything else.',
          'Sails down or balanced until she lies quiet; sea room to leeward?',
          'Does the stock turn? Then the emergency tiller is the answer. Does it not? Drogue or board.',
          'Tell the shore where you are and what has failed.',
        ],
      },
      {
        ...steering,
        id: 'rig',
        name: 'Ship the tiller, or rig drogue and bridle, or a board on a pole',
        place: 'deck',
        work: minutes(15, 50, 150),
        lookout: 'none',
        clipTo: AT_THE_STERN,
        materials: [{ item: 'drogue line', amount: 50, unit: 'm' }],
        instructions: [
          'Drogue: a small one, on a bridle of two lines of 25 m from the quarters.',
          'Each line through a block well forward of the stern, near midships, to a winch.',
          'Stream it slowly; hauling one side in turns her to that side.',
          'Board: lashed to a pole, the pole to the stern rail’s strongest point, a line to each side.',
        ],
      },
      {
        ...steering,
        id: 'learn',
        name: 'Balance the sails, learn to steer',
        work: minutes(10, 35, 90),
        stop: 'anywhere',
        lookout: 'full',
        hands: 'gross',
        instructions: [
          'Little sail, well forward.',
          'Change one thing at a time and wait for ten waves.',
          'Note which settings hold which course; three to five knots are good.',
        ],
      },
    ],
    cautions: [
      'Try it before you need it: at sea is no place for the first time.',
      'A drogue that steers is a stop-gap: make for the nearest port with sea room.',
      'No bight of line near the feet; hands clear of winch and block when it loads.',
    ],
    pointOfNoReturn: null,
    safePoints: ['She lies quiet.', 'She holds a course.'],
    turnBack: 'Let her lie quiet, drogue or tiller lashed amidships, and ask for advice ashore.',
    checksAfter: [
      { afterMin: 15, look: 'Chafe at quarters and blocks; does she still answer?' },
      { afterMin: 60, look: 'Chafe again, bilge, lashings of tiller or board.' },
    ],
    goesWith: ['drogue', 'rudder-bearing'],
    needsTools: ['emergency tiller', 'drogue', 'knife'],
    provenance: {
      ...PRACTICE,
      'rig.instructions': cited(
        'DROGUE_STEERING_2013',
        'small drogue on a bridle led near midships; board: common practice, no source',
      ),
      'rig.materials': 'common practice, no source: two lines of 20 to 30 m',
    },
  },
];
