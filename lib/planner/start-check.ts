import { type Conditions, type DeckWind, deckWindUnder } from '../voyage/index.ts';
import { quantileAt } from '../windows/index.ts';
import type { Handling } from '../boat/index.ts';
import type { Preparation } from './prepare.ts';
import type { ReportedEntry } from './report.ts';
import { rounded } from './rounded.ts';
import { type CheckNumbers, numbersAbove, READ, type StartCheck, type StartStopNumbers } from './start-numbers.ts';

interface Looked {
  readonly preparation: Preparation;
  readonly entry: ReportedEntry;
  readonly handling: Handling;
  readonly numbers: StartStopNumbers;
  /** Along the whole of the plan, on the scenarios it was searched on: for starts later than the planned one. */
  readonly wholeConditions: () => Conditions;
  /** Last start of the run of fair starts the planned one lies in. */
  readonly lastFairSlot: number;
  readonly utcAt: (slotIndex: number) => string;
}

export function startCheck(looked: Looked): StartCheck {
  const { entry, numbers, utcAt } = looked;
  const readings = readingsOf(looked, entry.conditions);
  const expected = readings.expectedAt(entry.startIndex);
  const passingSlot = isAtOrBelow(expected, numbers.start) ? entry.placed.startSlot : laterSlot(looked);
  return {
    ...numbers,
    expected,
    passProbability: readings.passProbability(entry.startIndex),
    passesFromUtc: passingSlot === null ? null : utcAt(passingSlot),
  };
}

/** The first fair start behind the planned one that is expected to pass. */
function laterSlot(looked: Looked): number | null {
  const firstSlot = looked.entry.placed.startSlot + 1;
  if (firstSlot > looked.lastFairSlot) return null;
  const readings = readingsOf(looked, looked.wholeConditions());
  for (let slotIndex = firstSlot; slotIndex <= looked.lastFairSlot; slotIndex++)
    if (isAtOrBelow(readings.expectedAt(slotIndex), looked.numbers.start)) return slotIndex;
  return null;
}

const isAtOrBelow = (expected: CheckNumbers, start: CheckNumbers): boolean =>
  numbersAbove({ expected, start }).length === 0;

interface Readings {
  readonly expectedAt: (i: number) => CheckNumbers;
  readonly passProbability: (i: number) => number | null;
}

/** Wind to whole knots, sea to tenths: as it is read off, and as the start numbers stand. */
const DIGITS: Readonly<Record<keyof CheckNumbers, number>> = {
  instrumentWindKn: 0,
  deckWindKn: 0,
  instrumentGustKn: 0,
  deckGustKn: 0,
  seaM: 1,
  trueWindKn: 0,
};

function readingsOf({ preparation, entry: { placed }, handling, numbers }: Looked, conditions: Conditions): Readings {
  const { weather } = conditions;
  const deck = deckWindUnder(conditions, handling, placed.sailStateId);
  const mast = deckWindUnder(atInstrument(conditions, preparation), handling, placed.sailStateId);
  const values = valuesOf(conditions, { deck, mast });
  return {
    expectedAt: (i) => {
      const median = (name: keyof CheckNumbers): number | null => {
        const value = quantileAt(values[name], weather, { i, quantileProbability: 0.5 });
        return Number.isNaN(value) ? null : rounded(value, DIGITS[name]);
      };
      return {
        instrumentWindKn: median('instrumentWindKn'),
        deckWindKn: median('deckWindKn'),
        instrumentGustKn: median('instrumentGustKn'),
        deckGustKn: median('deckGustKn'),
        seaM: median('seaM'),
        trueWindKn: median('trueWindKn'),
      };
    },
    passProbability: (i) => passProbability(conditions, { values, start: numbers.start, i }),
  };
}

/** The same conditions, felt at the height of the instrument. */
const atInstrument = (conditions: Conditions, { passage: { boat } }: Preparation): Conditions => ({
  ...conditions,
  deckHeightM: boat.instrumentHeightM,
  deckWinds: new Map(),
});

type Values = Readonly<Record<keyof CheckNumbers, Float32Array>>;

const valuesOf = ({ weather }: Conditions, { deck, mast }: { deck: DeckWind; mast: DeckWind }): Values => ({
  instrumentWindKn: mast.meanKn,
  deckWindKn: deck.meanKn,
  instrumentGustKn: mast.gustKn,
  deckGustKn: deck.gustKn,
  seaM: weather.seaHeightM,
  trueWindKn: weather.windKn,
});

/** Scenarios that do not know a number are left out of its question, as the plan leaves out limits it does not know. */
function passProbability(
  { weather }: Conditions,
  of: { values: Values; start: CheckNumbers; i: number },
): number | null {
  const asked = READ.filter((name) => of.start[name] !== null);
  let [passWeight, knownWeight] = [0, 0];
  for (let w = 0; w < weather.scenarioCount; w++) {
    const seen = asked.flatMap((name) => {
      const value = of.values[name][w * weather.pointCount + of.i] ?? Number.NaN;
      return Number.isNaN(value) ? [] : [{ value: rounded(value, DIGITS[name]), most: of.start[name] ?? Infinity }];
    });
    if (seen.length === 0) continue;
    knownWeight += weather.weights[w] ?? 0;
    if (seen.every(({ value, most }) => value <= most)) passWeight += weather.weights[w] ?? 0;
  }
  return knownWeight === 0 ? null : rounded(passWeight / knownWeight, 4);
}
