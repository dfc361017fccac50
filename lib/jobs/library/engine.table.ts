import { OUR_DEFAULT } from '../provenance.ts';
import type { LibraryEntry } from './entry.ts';
import { ON_HER_WAY, PRACTICE, type StepBase } from './shared-rig.table.ts';
import { cited } from './shared.table.ts';
import { ANY_STATE, limits, minutes } from './write.ts';

const FILTER = limits([20, 28, 35], [2, 3, 4], {
  daylight: 'not-needed',
  byEye: ['She rolls less than 20 degrees each way.'],
});
const OIL = limits([15, 22, 28], [1.2, 2, 2.8], {
  daylight: 'not-needed',
  byEye: ['She heels and rolls less than 10 degrees.'],
});
const CHECK = limits([25, 32, 40], [3, 4, 5], {
  daylight: 'not-needed',
  byEye: ['She heels less than 15 degrees while it runs.'],
});

const atFilter: StepBase = { place: 'below', limits: FILTER, effort: 'light', darkFactorRatio: 1.05 };
const atOil: StepBase = { place: 'below', limits: OIL, effort: 'light', darkFactorRatio: 1.05 };

export const ENGINE_JOBS: readonly LibraryEntry[] = [
  {
    id: 'fuel-filter',
    name: 'Change the fuel filter and bleed the engine',
    group: 'engine',
    sailStates: ANY_STATE,
    handlings: ON_HER_WAY,
    steps: [
      {
        ...atFilter,
        id: 'change',
        name: 'Shut the tank, drain, change the element',
        work: minutes(8, 18, 38),
        materials: [{ item: 'fuel filter', amount: 1, unit: 'pieces' }],
        instructions: [
          'A litre of clean fuel drawn ahead, towels, a tray and a bottle with a lid.',
          'Shut the tank; drain water and dirt until it runs clear.',
          'New element and seals, filled with the clean fuel; lid on, square.',
        ],
      },
      {
        ...atFilter,
        id: 'bleed',
        name: 'Bleed, run, check',
        work: minutes(8, 18, 42),
        stop: 'anywhere',
        instructions: [
          'Tank open. Bleed from the lowest screw to the highest, in the order of the maker’s book.',
          'Run ten minutes, the last of them with load; look for drops and bubbles.',
          'Wipe up all fuel; rags into a closed bag.',
        ],
      },
    ],
    cautions: [
      'Not near a lee shore, in traffic or just before the engine is wanted.',
      'Diesel on the sole is slippery.',
      'Fuel near a hot engine burns: let it cool, no flame, air through the cabin.',
    ],
    pointOfNoReturn: 'The circuit is open: no engine until it is bled.',
    safePoints: ['The lid is on.'],
    turnBack: 'Lid on with the old seal, tank shut, and a tag on the key: not bled.',
    checksAfter: [
      { afterMin: 15, look: 'Dry round lid and screws with the engine stopped.' },
      { afterMin: 60, look: 'Dry still; it starts at once.' },
    ],
    goesWith: ['engine-check'],
    needsTools: ['spanner set', 'filter wrench', 'head torch'],
    provenance: PRACTICE,
  },
  {
    id: 'oil-change',
    name: 'Change engine oil and filter at sea',
    group: 'engine',
    sailStates: ANY_STATE,
    handlings: ['heave-to', 'run-off'],
    steps: [
      {
        ...atOil,
        id: 'drain',
        name: 'Warm it, pump the old oil out',
        work: minutes(12, 22, 40),
        instructions: [
          'Is it due? Most leave it to port: the maker’s book has the hours.',
          'Run it warm, not hot, and stop it; key in your pocket.',
          'Pump the oil into cans with lids, labelled.',
        ],
      },
      {
        ...atOil,
        id: 'refill',
        name: 'Filter, refill, check',
        work: minutes(12, 22, 45),
        stop: 'anywhere',
        materials: [
          { item: 'engine oil', amount: 6, unit: 'l' },
          { item: 'oil filter', amount: 1, unit: 'pieces' },
        ],
        instructions: [
          'A bag round the old filter as it comes off; is its seal off too?',
          'Oil on the new seal, filter hand-tight.',
          'Fill to the lower mark, level boat; run, stop, wait, look, and top up.',
        ],
      },
    ],
    cautions: [
      'Hot oil and hot metal burn: warm, never hot.',
      'Not one drop overboard: the bilge pump is switched off until the bilge is wiped.',
      'No engine for about an hour: sea room, no traffic.',
    ],
    pointOfNoReturn: 'The oil is out.',
    safePoints: ['Oil full and cap on.'],
    turnBack: 'Oil in, cap on, and a tag on the key with what is still to do.',
    checksAfter: [
      { afterMin: 15, look: 'No drop at filter and drain; level at the mark.' },
      { afterMin: 60, look: 'Level again; bilge pump switched on again.' },
    ],
    goesWith: ['fuel-filter', 'engine-check'],
    needsTools: ['oil pump', 'filter wrench', 'spanner set'],
    provenance: {
      ...PRACTICE,
      'drain.instructions': cited(
        'OIL_CHANGE_AT_SEA_2016',
        'left to port by most; the rest common practice, no source',
      ),
      'refill.materials': OUR_DEFAULT,
    },
  },
  {
    id: 'engine-check',
    name: 'Check the engine and run it to charge',
    group: 'engine',
    sailStates: ANY_STATE,
    handlings: ON_HER_WAY,
    steps: [
      {
        id: 'check',
        name: 'Belts, oil, water, seacock; run it 20 to 60 minutes',
        place: 'below',
        work: minutes(12, 35, 75),
        stop: 'anywhere',
        effort: 'light',
        limits: CHECK,
        darkFactorRatio: 1,
        session: { resumeMin: 1 },
        instructions: [
          'Look over the side first: no rope in the water.',
          'Oil, coolant, belt, leaks; seacock open, strainer clear.',
          'Start; cooling water seen at the exhaust within a minute, or stop it.',
          'Note hours, volts and charge; listen, and look for drops while it runs.',
        ],
      },
    ],
    cautions: [
      'Hair, sleeves and tethers away from belts; never reach over a running engine.',
      'Coolant cap stays on while it is hot.',
      'Exhaust gas: air through the cabin, gas alarm on.',
    ],
    pointOfNoReturn: null,
    safePoints: ['Any time.'],
    turnBack: 'Stop it, close the seacock, note what was seen.',
    goesWith: ['fuel-filter'],
    needsTools: ['head torch'],
    provenance: PRACTICE,
  },
];
