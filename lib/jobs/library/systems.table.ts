import { OUR_DEFAULT } from '../provenance.ts';
import type { LibraryEntry } from './entry.ts';
import {
  AT_THE_STERN,
  ON_HER_WAY,
  PRACTICE,
  RUN_OR_HEAVE_TO,
  type StepBase,
  WHATEVER_SHE_DOES,
} from './shared-rig.table.ts';
import { ANY_STATE, limits, minutes } from './write.ts';

const WATERMAKER = limits([20, 26, 32], [2, 3, 4], {
  daylight: 'not-needed',
  byEye: ['She heels and rolls less than 20 degrees, and the intake stays under water on this tack.'],
});
const WIND_SOLAR = limits([9, 13, 16], [1.5, 2.2, 3], { deckGustNoGoKn: 20, daylight: 'required', rain: 'none' });
const STERN_GEAR = limits([14, 20, 25], [1.8, 2.6, 3.4], {
  rain: 'none',
  byEye: ['The joint is dry and stays so: no spray over the stern.'],
});

const atWatermaker: StepBase = {
  place: 'below',
  limits: WATERMAKER,
  stop: 'anywhere',
  effort: 'light',
  darkFactorRatio: 1,
  session: { resumeMin: 2 },
};
const atGenerator: StepBase = {
  place: 'deck',
  limits: WIND_SOLAR,
  effort: 'light',
  darkFactorRatio: 1.8,
  clipTo: AT_THE_STERN,
};
const atSternRail: StepBase = {
  place: 'deck',
  limits: STERN_GEAR,
  stop: 'anywhere',
  effort: 'light',
  darkFactorRatio: 1.4,
  session: { resumeMin: 2 },
  clipTo: AT_THE_STERN,
};

export const SYSTEMS_JOBS: readonly LibraryEntry[] = [
  {
    id: 'watermaker',
    name: 'Service the watermaker: filters, run, flush',
    group: 'systems',
    sailStates: ANY_STATE,
    handlings: ON_HER_WAY,
    steps: [
      {
        ...atWatermaker,
        id: 'filters',
        name: 'Shut it, change the pre-filters',
        work: minutes(8, 18, 35),
        materials: [{ item: 'watermaker filter', amount: 2, unit: 'pieces' }],
        instructions: [
          'Breaker off, seacock shut, pressure let off.',
          'New filters, seals wiped and greased; seacock open, air bled, no drop.',
        ],
      },
      {
        ...atWatermaker,
        id: 'run',
        name: 'Run, taste, flush',
        work: minutes(15, 35, 60),
        materials: [{ item: 'fresh water', amount: 20, unit: 'l' }],
        instructions: [
          'Pressure up slowly to the maker’s figure, never over it.',
          'The first water goes overboard; taste or measure before it goes to the tank.',
          'Flush with fresh water if it will stand for some days: 5 to 20 l, by the maker’s book.',
        ],
      },
    ],
    cautions: [
      'High pressure: let it off before anything is opened.',
      'No oily or chlorinated water into the membrane: not near ships’ tracks or in port.',
    ],
    pointOfNoReturn: null,
    safePoints: ['Any time.'],
    turnBack: 'Breaker off, seacock shut, pressure let off.',
    checksAfter: [{ afterMin: 15, look: 'Housings dry, seacock as it should be.' }],
    needsTools: ['filter wrench', 'head torch'],
    provenance: PRACTICE,
  },
  {
    id: 'wind-solar',
    name: 'Mend the wind generator, a solar panel or the regulator',
    group: 'systems',
    sailStates: ANY_STATE,
    handlings: RUN_OR_HEAVE_TO,
    steps: [
      {
        ...atGenerator,
        id: 'stop-rotor',
        name: 'Brake it, turn it out of the wind, lash a blade',
        work: minutes(5, 10, 20),
        safePointAfter: true,
        instructions: [
          'Brake on and output shorted as the maker says; then turn the tail, never reach for the blades.',
          'Lash one blade to the pole once it stands still.',
          'Solar: cover the panel before a plug is pulled.',
        ],
      },
      {
        ...atGenerator,
        id: 'mend',
        name: 'Test, tighten, crimp again',
        work: minutes(15, 32, 75),
        stop: 'anywhere',
        hands: 'fine',
        session: { resumeMin: 3 },
        materials: [
          { item: 'crimp connectors', amount: 2, unit: 'pieces' },
          { item: 'self-amalgamating tape', amount: 0.3, unit: 'm' },
        ],
        instructions: [
          'Breakers off at battery and regulator; measure before you touch.',
          'Plugs and brushes clean, mounting bolts tight, no crack in a blade.',
          'Crimp, grease, tape; lashing off last, from below the blades.',
        ],
      },
    ],
    cautions: [
      'Spinning blades: stopped and lashed before a head or hand is near.',
      'Leaning out at the stern: clipped inboard, one hand for the boat.',
      'A panel in the sun is live: covered, and no wet hands.',
    ],
    pointOfNoReturn: null,
    safePoints: ['The blades are lashed.'],
    turnBack: 'Leave the blades lashed and the panel covered, ends taped one by one.',
    checksAfter: [
      { afterMin: 15, look: 'It charges; no shaking, no warm plug.' },
      { afterMin: 60, look: 'Bolts, lashings and plug again.' },
    ],
    goesWith: ['stern-gear'],
    needsTools: ['multimeter', 'crimping pliers', 'spanner set', 'tool lanyards'],
    provenance: { ...PRACTICE, 'mend.materials': OUR_DEFAULT },
  },
  {
    id: 'stern-gear',
    name: 'Mend charging or aerial gear on the stern rail',
    group: 'systems',
    sailStates: ANY_STATE,
    handlings: RUN_OR_HEAVE_TO,
    steps: [
      {
        ...atSternRail,
        id: 'reach',
        name: 'Clip on, bring it to hand',
        work: minutes(4, 8, 15),
        hands: 'gross',
        instructions: [
          'Power off at the switchboard, and a tag on it.',
          'Sit with the back to something solid; bring the cable inboard, do not lean out.',
        ],
      },
      {
        ...atSternRail,
        id: 'joint',
        name: 'Open, dry, make the joint again, seal',
        work: minutes(15, 30, 65),
        hands: 'fine',
        materials: [
          { item: 'crimp connectors', amount: 2, unit: 'pieces' },
          { item: 'self-amalgamating tape', amount: 0.5, unit: 'm' },
        ],
        instructions: [
          'Rinse with fresh water, dry, cut back to bright metal.',
          'Crimp, pull at it, shrink a sleeve over it.',
          'Power on and test before it is sealed; then tape, stretched, from below upwards.',
          'A loop hangs below the joint, so that drops run off.',
        ],
      },
    ],
    cautions: [
      'A following sea comes over the stern: clipped, and look aft before you kneel down.',
      'Power off first.',
    ],
    pointOfNoReturn: null,
    safePoints: ['Any time.'],
    turnBack: 'Tape the open ends one by one and leave the power off.',
    checksAfter: [{ afterMin: 60, look: 'It works still; the joint is dry.' }],
    goesWith: ['wind-solar'],
    needsTools: ['multimeter', 'crimping pliers', 'knife'],
    provenance: { ...PRACTICE, 'joint.materials': OUR_DEFAULT },
  },
  {
    id: 'comms-mend',
    name: 'Mend radio, satellite link or wiring below',
    group: 'systems',
    sailStates: ANY_STATE,
    handlings: WHATEVER_SHE_DOES,
    steps: [
      {
        id: 'trace',
        name: 'Find the fault, swap the lead, test',
        place: 'below',
        work: minutes(15, 40, 100),
        stop: 'anywhere',
        effort: 'light',
        hands: 'fine',
        limits: limits([25, 32, 40], [2.5, 3.5, 5], { daylight: 'not-needed' }),
        darkFactorRatio: 1,
        session: { resumeMin: 2 },
        instructions: [
          'Fuse, plug, then volts with the set switched on and under load.',
          'Swap one thing at a time: power lead, aerial lead, aerial.',
          'Never transmit without an aerial.',
          'Send a test message ashore and wait for its answer; note what was wrong.',
        ],
      },
    ],
    cautions: [
      'Breaker off before a wire is cut; a battery shorted by a tool burns.',
      'Keep a hand-held set charged beside you.',
    ],
    pointOfNoReturn: null,
    safePoints: ['Any time.'],
    turnBack: 'Tape the open ends, switch off, and fall back on the hand-held set.',
    goesWith: ['stern-gear'],
    needsTools: ['multimeter', 'screwdriver', 'crimping pliers', 'head torch'],
    provenance: PRACTICE,
  },
];
