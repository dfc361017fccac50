import { type Boat, feltWindKn, type Handling, instrumentWindKn } from '../boat/index.ts';
import type { Step } from '../jobs/index.ts';

/**
 * Start only with this share of a limit seen: observed over the last half hour at or below 0.8 of it; our rule.
 *
 * It is asked of what is seen, at the moment of the start. A plan asks another thing: that the weather stays at or below
 * the limit itself with the wanted probability.
 */
const START_RATIO = 0.8;

/** What can be read off before and during a job; null: nothing of the kind is asked, or it is not known. */
export interface CheckNumbers {
  readonly instrumentWindKn: number | null;
  readonly deckWindKn: number | null;
  readonly instrumentGustKn: number | null;
  readonly deckGustKn: number | null;
  readonly seaM: number | null;
  /** At 10 m; asked where the handling holds a course, and so has no one wind angle. */
  readonly trueWindKn: number | null;
}

/** Steps worked together, and how the boat lies meanwhile. */
export interface WorkedPart {
  readonly steps: readonly Step[];
  /** null: the boat has none for it; the steps alone bind. */
  readonly handling: Handling | null;
  readonly sailStateId: string;
}

export interface CheckedBoat {
  readonly boat: Boat;
  readonly deckHeightM: number;
}

/** The numbers a job is started and stopped by. */
export interface StartStopNumbers {
  readonly start: CheckNumbers;
  readonly stop: CheckNumbers;
}

/** What the instruments will probably say at the planned start, beside the numbers to start and to stop at. */
export interface StartCheck extends StartStopNumbers {
  /** Medians of the reporting scenarios at the planned start, rounded as they are shown. */
  readonly expected: CheckNumbers;
  /** Weight of scenarios (0..1) in which every number that is known is at or below its start number; null: none is. */
  readonly passProbability: number | null;
  /** First fair start, from the planned one on, at which every median is at or below; null: none of them. */
  readonly passesFromUtc: string | null;
}

/** Numbers that are read off, in the order in which they are said; those on deck follow from the instrument's. */
export const READ = ['instrumentWindKn', 'instrumentGustKn', 'seaM', 'trueWindKn'] as const;
type ReadName = (typeof READ)[number];

/** Numbers whose median is expected above what the job is started at. */
export const numbersAbove = ({ expected, start }: Pick<StartCheck, 'expected' | 'start'>): readonly ReadName[] =>
  READ.filter((name) => {
    const [seen, most] = [expected[name], start[name]];
    return seen !== null && most !== null && seen > most;
  });

/**
 * Start and stop numbers of a job: the strictest of the limits of all its steps and of the handlings they are worked
 * under, on the deck and as the boat's own instrument shows it. Rounded down as they are shown, wind to whole knots, sea
 * to tenths: never up.
 */
export const startStopNumbers = (parts: readonly WorkedPart[], checked: CheckedBoat): StartStopNumbers => ({
  start: numbersAt(parts, checked, START_RATIO),
  stop: numbersAt(parts, checked, 1),
});

function numbersAt(parts: readonly WorkedPart[], checked: CheckedBoat, shareRatio: number): CheckNumbers {
  const all = parts.map((part) => partNumbers(part, checked, shareRatio));
  const least = (of: (numbers: CheckNumbers) => number | null, stepsPerUnitCount: number): number | null =>
    roundedDown(strictest(all.map(of)), stepsPerUnitCount);
  return {
    instrumentWindKn: least((numbers) => numbers.instrumentWindKn, 1),
    deckWindKn: least((numbers) => numbers.deckWindKn, 1),
    instrumentGustKn: least((numbers) => numbers.instrumentGustKn, 1),
    deckGustKn: least((numbers) => numbers.deckGustKn, 1),
    seaM: least((numbers) => numbers.seaM, 10),
    trueWindKn: least((numbers) => numbers.trueWindKn, 1),
  };
}

function partNumbers(part: WorkedPart, checked: CheckedBoat, shareRatio: number): CheckNumbers {
  const { steps, handling } = part;
  const share = (value: number | null | undefined): number | null =>
    value === null || value === undefined ? null : value * shareRatio;
  const handlingWindKn = share(handling?.limits.trueWindKn.noGo);
  const isOnCourse = handling?.heading.kind === 'course';
  const deckWindKn = strictest([
    ...steps.map(({ limits }) => share(limits.deckWindKn?.noGo)),
    isOnCourse ? null : onDeck(part, checked, handlingWindKn),
  ]);
  const deckGustKn = strictest(steps.map(({ limits }) => share(limits.deckGustNoGoKn)));
  return {
    instrumentWindKn: onInstrument(part, checked, deckWindKn),
    deckWindKn,
    instrumentGustKn: onInstrument(part, checked, deckGustKn),
    deckGustKn,
    seaM: strictest([
      ...steps.map(({ limits }) => share(limits.seaHeightM?.noGo)),
      share(handling?.limits.seaHeightM.noGo),
    ]),
    trueWindKn: isOnCourse ? handlingWindKn : null,
  };
}

/** What the deck feels when the true wind is where the handling ends. */
function onDeck({ handling, sailStateId }: WorkedPart, checked: CheckedBoat, trueWindKn: number | null): number | null {
  if (handling === null || trueWindKn === null) return null;
  return feltWindKn(checked.boat, handling, { trueWindKn, heightM: checked.deckHeightM, sailStateId });
}

function onInstrument(part: WorkedPart, checked: CheckedBoat, deckWindKn: number | null): number | null {
  const { handling, sailStateId } = part;
  if (handling === null || deckWindKn === null) return null;
  return instrumentWindKn(checked.boat, handling, { deckWindKn, deckHeightM: checked.deckHeightM, sailStateId });
}

function strictest(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null && Number.isFinite(value));
  return known.length === 0 ? null : Math.min(...known.map(Number));
}

/** 3.2 m is 32 tenths, not 31.999…; and 25 kn brought to the instrument and back are 25. */
const ROUNDING = 1e-6;

const roundedDown = (value: number | null, stepsPerUnitCount: number): number | null =>
  value === null ? null : Math.floor(value * stepsPerUnitCount + ROUNDING) / stepsPerUnitCount;
