import { OUR_DEFAULT } from '../provenance.ts';
import type { LibraryEntry } from './entry.ts';
import {
  AT_THE_STERN,
  IN_THE_COCKPIT,
  ON_THE_SIDE_DECK,
  PRACTICE,
  type StepBase,
  WHATEVER_SHE_DOES,
} from './shared-rig.table.ts';
import { cited } from './shared.table.ts';
import { ANY_STATE, hours, limits, MAIN_DOWN, minutes } from './write.ts';

/** Deck to be bonded is dry for six hours before it is opened: the card says 2 to 12. */
const REBED = limits([14, 20, 25], [1.2, 1.8, 2.5], {
  rain: 'none',
  airLeastC: 5,
  byEye: [
    'The deck round the fitting is dry and stays out of the spray.',
    'No dew and no fog: not from an hour before sunset to two hours after sunrise in damp air.',
  ],
});
const LEAK = limits([25, 35, 50], [3, 5, 7], { daylight: 'not-needed' });
const PUMP = limits([25, 35, 45], [3, 4.5, 6], { daylight: 'not-needed' });
const PROP_DECK = limits([12, 18, 24], [1.5, 2.2, 3], {
  byEye: ['She makes less than half a knot through the water.'],
});
const PROP_SWIM = limits([5, 8, 10], [0.4, 0.7, 1], {
  deckGustNoGoKn: 12,
  steepnessNoGoRatio: 0.02,
  daylight: 'required',
  seaWaterLeastC: 20,
  byEye: [
    'She makes less than 0.3 knots through the water: a float beside her stays beside her.',
    'No big swell: the highest wave of an hour is nearly twice the height in the forecast.',
  ],
});
const DROGUE = limits([30, 42, 55], [4, 6, 8]);

const rebedding: StepBase = { place: 'deck', limits: REBED, darkFactorRatio: 1.4, clipTo: ON_THE_SIDE_DECK };
const atLeak: StepBase = { place: 'below', limits: LEAK, darkFactorRatio: 1.05 };
const atPump: StepBase = { place: 'below', limits: PUMP, effort: 'light', darkFactorRatio: 1.05 };
const overTheStern: StepBase = { place: 'deck', limits: PROP_DECK, darkFactorRatio: 1.8, clipTo: AT_THE_STERN };
const swimming: StepBase = {
  place: 'deck',
  limits: PROP_SWIM,
  effort: 'heavy',
  darkFactorRatio: 3,
  clipTo: AT_THE_STERN,
};
const withDrogue: StepBase = {
  place: 'deck',
  limits: DROGUE,
  effort: 'heavy',
  darkFactorRatio: 1.3,
  clipTo: AT_THE_STERN,
};

export const HULL_JOBS: readonly LibraryEntry[] = [
  {
    id: 'rebed',
    name: 'Re-bed a leaking deck fitting',
    group: 'hull',
    sailStates: ANY_STATE,
    handlings: ['run-off', 'heave-to', 'hold-course'],
    steps: [
      {
        ...rebedding,
        id: 'lift',
        name: 'Find the leak, mask, unscrew',
        work: minutes(12, 25, 50),
        limits: { ...REBED, dryBeforeH: 6 },
        instructions: [
          'Choose the tack that lifts this side out of the water, and stay on it.',
          'Find it by test: water on one fitting at a time while you look below.',
          'Mask round it. Unscrew; gear under load comes off one bolt at a time.',
          'A plug and a strip of tape lie beside the hole from now on.',
        ],
      },
      {
        ...rebedding,
        id: 'clean',
        name: 'Scrape, degrease, dry',
        work: minutes(10, 22, 45),
        stop: 'anywhere',
        instructions: [
          'Old compound off both faces to the last trace.',
          'Dry the core with warm air from the holes; black and soft core means a bigger repair.',
          'Countersink the holes a little, so that the compound makes a ring; degrease twice.',
        ],
      },
      {
        ...rebedding,
        id: 'bed',
        name: 'Bed, screw down half, clean',
        work: minutes(12, 22, 40),
        stop: 'never',
        waitAfter: hours('cure', [0, 30, 72], { atC: 20, halvesPerC: 10, floorC: 5 }),
        materials: [{ item: 'butyl tape', amount: 0.5, unit: 'm' }],
        instructions: [
          'Butyl tape needs no cure and works in the cold: 0.5 m for a fitting. A sealant takes about 60 ml.',
          'A ring round each bolt, then the face; bolts in, nuts up half-way.',
          'Hold the bolt, turn the nut: a bolt that turns breaks the seal.',
          'Squeezed out all round? Then it seals. Trim, mask off.',
        ],
      },
      {
        ...rebedding,
        id: 'tighten',
        name: 'Last turn after the cure',
        work: minutes(3, 6, 12),
        stop: 'anywhere',
        effort: 'light',
        instructions: ['Half a turn on each nut, crosswise, the bolt held still.', 'Water on it, and look below.'],
      },
    ],
    cautions: [
      'There is a hole in the deck: no sea may come over it.',
      'Loaded gear: one bolt at a time, or another line takes the load first.',
      'Sealants and solvents: gloves and air, no flame; polysulfide attacks some plastics.',
    ],
    pointOfNoReturn: 'The fitting is off: there is a hole in the deck.',
    safePoints: ['The fitting is on again with new compound.'],
    turnBack:
      'Plug in, tape over, fitting back on dry with two bolts. In rain, polysulfide smeared on wet is a stop-gap.',
    checksAfter: [
      { afterMin: 15, look: 'Below the fitting with its load on: no movement, no drop.' },
      { afterMin: 60, look: 'Below again, after some water over it.' },
    ],
    startEarly: ['fastener-oil'],
    goesWith: ['deck-walk'],
    needsTools: ['screwdriver', 'spanner set', 'scraper', 'countersink', 'hair dryer'],
    provenance: {
      ...PRACTICE,
      'bed.waitAfter': cited(
        'DECK_BEDDING_THREAD',
        'polysulfide: two days at least before the last turn; the rest common practice, no source',
      ),
      'lift.dryBeforeH': 'our default, between the 2 and 12 hours of common practice',
    },
  },
  {
    id: 'hull-leak',
    name: 'Stop a leaking hull fitting or hose',
    group: 'hull',
    sailStates: ANY_STATE,
    handlings: WHATEVER_SHE_DOES,
    steps: [
      {
        ...atLeak,
        id: 'stop',
        name: 'Find it, close the seacock or drive a plug',
        work: minutes(2, 8, 30),
        safePointAfter: true,
        hands: 'gross',
        materials: [{ item: 'soft wood plug', amount: 1, unit: 'pieces' }],
        instructions: [
          'Pumps on. Slow her down, and heel the leak out of the water if that can be done.',
          'Salt or fresh? Follow it from the bilge up: seacocks, hoses, glands, log and sounder.',
          'Close the cock. If it does not seal, a soft plug, driven with wet cloth round it.',
        ],
      },
      {
        ...atLeak,
        id: 'mend',
        name: 'Clamp, wrap, putty, brace',
        work: minutes(10, 28, 70),
        stop: 'anywhere',
        materials: [
          { item: 'hose clips', amount: 2, unit: 'pieces' },
          { item: 'self-amalgamating tape', amount: 2, unit: 'm' },
          { item: 'underwater putty', amount: 200, unit: 'g' },
        ],
        instructions: [
          'Hose: cut back and clip again, or wrap with self-amalgamating tape, stretched, two clips over it.',
          'Crack: putty that cures under water, pressed in, a pad over it, braced to something strong.',
          'Open the cock by a crack and watch before you trust it.',
        ],
      },
    ],
    cautions: [
      'A plug hangs on a line at each hull fitting before anything is opened.',
      'Water and electricity: live cables out of the bilge, inverter off.',
      'Gaining on the pumps? Raise the alarm early, while there is power.',
    ],
    pointOfNoReturn: 'The hose is off and the cock does not seal.',
    safePoints: ['The hole is plugged.'],
    turnBack: 'Plug driven home and braced; pump, and keep that side high.',
    checksAfter: [
      { afterMin: 15, look: 'Dry round the mend; level in the bilge marked.' },
      { afterMin: 60, look: 'Bilge against the mark, plug or clips tight.' },
    ],
    goesWith: ['bilge-pump'],
    needsTools: ['screwdriver', 'hammer', 'knife', 'head torch'],
    provenance: { ...PRACTICE, 'stop.materials': OUR_DEFAULT, 'mend.materials': OUR_DEFAULT },
  },
  {
    id: 'bilge-pump',
    name: 'Clear a bilge pump, float switch or strainer',
    group: 'hull',
    sailStates: ANY_STATE,
    handlings: WHATEVER_SHE_DOES,
    steps: [
      {
        ...atPump,
        id: 'find',
        name: 'Find where the water comes from first',
        work: minutes(5, 12, 25),
        stop: 'anywhere',
        instructions: [
          'Salt or fresh? Mark the level, look again after five minutes.',
          'Rising: the leak comes before the pump. The hand pump is beside you.',
        ],
      },
      {
        ...atPump,
        id: 'clear',
        name: 'Clear strainer or impeller, test',
        work: minutes(10, 22, 50),
        instructions: [
          'Breaker off. Strainer out, dirt into a bucket, hose blown through.',
          'Impeller turns by hand, float lifts and falls, joints dry.',
          'Breaker on, a bucket of water in, time how long it takes.',
        ],
      },
    ],
    cautions: ['Breaker off before a hand goes into the pump; wet wiring can start it.'],
    pointOfNoReturn: null,
    safePoints: ['Any time while the hand pump works.'],
    turnBack: 'Close it up and pump by hand; count the strokes for each hour in the log.',
    checksAfter: [
      { afterMin: 15, look: 'Level in the bilge; does the switch cut in and out?' },
      { afterMin: 60, look: 'Level in the bilge again.' },
    ],
    goesWith: ['hull-leak'],
    needsTools: ['screwdriver', 'bucket', 'head torch'],
    provenance: PRACTICE,
  },
  {
    id: 'prop-deck',
    name: 'Clear a fouled propeller from the deck',
    group: 'hull',
    sailStates: ANY_STATE,
    handlings: ['lie-ahull', 'heave-to'],
    steps: [
      {
        ...overTheStern,
        id: 'look',
        name: 'Stop, look with a camera, take the rope’s strain',
        work: minutes(6, 12, 25),
        stop: 'anywhere',
        hands: 'gross',
        instructions: [
          'Engine stopped, key in your pocket, gear in neutral.',
          'Camera on a pole: rope, net or sheet, and which way is it wound?',
          'Catch the free end with a boat-hook and lead it to a winch.',
        ],
      },
      {
        ...overTheStern,
        id: 'unwind',
        name: 'Unwind by turning the shaft the other way, or cut with a hook on a pole',
        work: minutes(10, 30, 80),
        stop: 'anywhere',
        session: { resumeMin: 4 },
        instructions: [
          'Steady strain on the free end; turn the shaft by hand, against the way it was wound.',
          'Too stiff by hand: decompressed, touches of the starter, if the maker allows it and nobody is at the shaft.',
          'A hooked blade on a pole, pulled towards you, turn by turn.',
          'Lying over the rail: clipped short, and never both hands on the pole when she lifts.',
        ],
      },
    ],
    cautions: [
      'Nobody’s hand is at the shaft while another hand is at the starter: alone, the key stays in your pocket.',
      'Head and arms over the stern rail: clipped to the inboard side, not to the rail.',
      'She may still sail home without the engine.',
    ],
    pointOfNoReturn: null,
    safePoints: ['Any time.'],
    turnBack: 'Lash the free end on deck, tag the engine’s key, and sail on.',
    checksAfter: [
      { afterMin: 15, look: 'Engine in gear at low revolutions: noise, shaking, water at the shaft gland.' },
      { afterMin: 60, look: 'Gland and bilge again; rope on deck all accounted for.' },
    ],
    goesWith: ['engine-check'],
    needsTools: ['boat-hook', 'hook knife', 'camera on a pole', 'knife'],
    provenance: {
      ...PRACTICE,
      'unwind.instructions': `${cited('PROPELLER_ARTICLE', 'turning back, decompressed')}; ${cited('UNDERWATER_WORK_NOTES', 'hook on a pole')}`,
    },
  },
  {
    id: 'prop-swim',
    name: 'Clear a fouled propeller by swimming',
    group: 'hull',
    sailStates: ANY_STATE,
    handlings: ['lie-ahull', 'heave-to'],
    steps: [
      {
        ...swimming,
        id: 'prepare',
        name: 'Stop her; ladder, lines, suit, mask, knife',
        work: minutes(15, 28, 45),
        stop: 'anywhere',
        instructions: [
          'Engine stopped, key in your pocket. She lies still, and no ship is in sight.',
          'Ladder down and tried; two long lines with floats trail astern.',
          'Helmet or thick hood, suit, gloves, mask; eat and warm up first.',
          'Knife with teeth or hacksaw tied to the boat, not to the wrist.',
          'Tell the shore when you go in and when you will be out.',
        ],
      },
      {
        ...swimming,
        id: 'dive',
        name: 'Dive in short goes',
        place: 'overside',
        work: minutes(12, 35, 75),
        lookout: 'none',
        clipTo: 'Lifeline to a strong point at the stern, too short to be drawn into the propeller.',
        instructions: [
          'First go: hold the ladder for a minute until your breath is quiet.',
          'Go under in the lulls, one arm above the head against the hull, never under the counter when she pitches.',
          'Cut one turn at a time; rest on the ladder, look round for ships.',
          'Ten minutes, then out and warm.',
        ],
      },
      {
        ...swimming,
        id: 'out',
        name: 'Climb out, rest, warm up',
        work: minutes(8, 15, 30),
        stop: 'anywhere',
        hands: 'gross',
        instructions: [
          'Dry clothes and a warm drink before anything else.',
          'Ladder and both lines in before she sails.',
        ],
      },
    ],
    cautions: [
      'Alone at sea this is a last resort: can she sail home, or can you wait for a lee or an anchorage?',
      'A stern that slams kills; a boat that drifts faster than you swim does too.',
      'Cold water takes the breath in the first minute and the hands in the next ten.',
      'Keep clear of loose rope; leave the water for any large fish or jellyfish.',
    ],
    pointOfNoReturn: null,
    safePoints: ['On the ladder.', 'On deck.'],
    turnBack: 'Out at the first bang, shiver, cramp or puff of wind; sail on without the engine.',
    checksAfter: [
      { afterMin: 15, look: 'Warm again? Engine in gear at low revolutions: noise, shaking, shaft gland.' },
      { afterMin: 60, look: 'Gland and bilge; yourself once more.' },
    ],
    goesWith: ['prop-deck'],
    needsTools: ['boarding ladder', 'diving mask', 'helmet', 'knife', 'hacksaw'],
    provenance: {
      ...PRACTICE,
      '*.seaWaterLeastC': cited('UNDERWATER_WORK_NOTES', '20 °C without a suit'),
      '*.darkFactorRatio': 'our default; it is never worked in the dark',
      'prepare.instructions': cited(
        'UNDERWATER_WORK_NOTES',
        'tool tied to the boat; the rest common practice, no source',
      ),
    },
  },
  {
    id: 'drogue',
    name: 'Set or recover a drogue',
    group: 'hull',
    sailStates: MAIN_DOWN,
    handlings: ['run-off', 'bare-poles', 'drogue'],
    steps: [
      {
        ...withDrogue,
        id: 'prepare',
        name: 'Flake the line, bridle, chafe gear',
        place: 'cockpit',
        work: minutes(6, 12, 25),
        stop: 'anywhere',
        hands: 'gross',
        clipTo: IN_THE_COCKPIT,
        instructions: [
          'Line flaked to run, from the drogue’s end on top; no bight near the feet.',
          'Bridle to both quarters, outside everything, chafe gear where it leaves the boat.',
          'Inboard end on the strongest winch or cleat before the drogue is touched.',
        ],
      },
      {
        ...withDrogue,
        id: 'stream',
        name: 'Stream it, or haul it in by winch',
        work: minutes(6, 15, 45),
        stop: 'never',
        lookout: 'none',
        hands: 'gross',
        instructions: [
          'To set: over the lee quarter as she slides into a trough; sit, and keep clear of the line as it runs.',
          'Snub it in steps round the winch; it lies one or two waves astern.',
          'To recover: in the lulls, when the line goes slack; the winch holds what each lull gives.',
        ],
      },
    ],
    cautions: [
      'A running line takes a foot or a finger: sit outside the bight, gloves on, knife within reach.',
      'Hold her stern to the sea throughout.',
    ],
    pointOfNoReturn: 'The drogue is in the water.',
    safePoints: ['Fully streamed and fast.'],
    turnBack:
      'Before it is over the side: stow it. Once it pulls: let all the line go to its bitter end, and lie to it.',
    checksAfter: [
      { afterMin: 15, look: 'Chafe at both quarters; how does she lie?' },
      { afterMin: 60, look: 'Chafe, and again every hour: let a little out each time.' },
    ],
    goesWith: ['emergency-steer'],
    needsTools: ['drogue', 'winch handle', 'knife'],
    provenance: PRACTICE,
  },
];
