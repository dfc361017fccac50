import type { Passage } from '../../passage/index.ts';
import { nextLagMin, type Watchkeeper } from '../../person/index.ts';
import { MS_PER_H, MS_PER_MIN, type UtcInterval } from '../../time/index.ts';
import { wrap180Deg } from '../../units/index.ts';
import { joined, sleepsOf } from '../sleeps.ts';
import type { LogNote } from '../log-note.ts';
import { minWords, utcWords } from '../words.ts';
import type { Known, Noted } from './known.ts';
import type { PlaceNow } from './place-now.ts';

const DAY_MS = 24 * MS_PER_H;

/** How far back sleeps are kept, and how many at least: debt is of days. */
const REMEMBERED_MS = 7 * DAY_MS;
const LEAST_SLEEP_COUNT = 2;

/** Awake longer than this, as far as the log says, is said. Ours. */
const LONG_AWAKE_H = 20;

/** Solar time gained for each degree of longitude made good to the east. */
const SOLAR_MIN_PER_LON_DEG = 4;

/** Paths of what the passage leaves to its defaults. */
export const ASSUMED_SLEEPS = 'watchkeeper.sleeps';

/** The watchkeeper at the place and time the plan goes on from. */
export function watchkeeperNow(passage: Passage, known: Known, place: PlaceNow): Noted<Watchkeeper> {
  const { watchkeeper } = passage;
  const { sleeps, notes } = sleepsNow(passage, known, place);
  return { value: { ...watchkeeper, sleeps, bodyClockLagMin: lagAlong(passage, place) }, notes };
}

/**
 * Sleeps of the file and of the log as one record. Nights that are only assumed give way to the log: those from its first
 * sleep on are left out; where it holds no sleep at all they are assumed again up to now, which is said.
 */
function sleepsNow(
  passage: Passage,
  known: Known,
  place: PlaceNow,
): { sleeps: readonly UtcInterval[]; notes: readonly LogNote[] } {
  const { effective, nowEpochMs } = known;
  const own = passage.watchkeeper.sleeps;
  const isAssumed = passage.defaultsUsed.includes(ASSUMED_SLEEPS);
  const logged = sleepsOf(effective);
  const [first] = logged.sleeps;
  if (first === undefined) {
    const hasMoved = isAssumed && place.epochMs > passage.start.epochMs;
    if (!hasMoved) return { sleeps: own, notes: [] };
    const nights = movedNights(own, nowEpochMs, wrap180Deg(place.position.lon - passage.start.position.lon));
    return { sleeps: nights, notes: [assumedNote(nights)] };
  }
  const kept = isAssumed ? own.filter(({ endEpochMs }) => endEpochMs <= first.startEpochMs) : own;
  const sleeps = remembered(joined([...kept, ...logged.sleeps]), nowEpochMs);
  return { sleeps, notes: [...logged.notes, ...awakeNotes(sleeps, nowEpochMs)] };
}

/** The same nights, as many days later as they end by now, at the same solar hour in the new longitude. */
function movedNights(nights: readonly UtcInterval[], nowEpochMs: number, dLonDeg: number): UtcInterval[] {
  const last = nights.at(-1);
  if (last === undefined) return [];
  const shiftMs = Math.round(-dLonDeg * SOLAR_MIN_PER_LON_DEG) * MS_PER_MIN;
  const days = Math.max(0, Math.floor((nowEpochMs - last.endEpochMs - shiftMs) / DAY_MS));
  if (days === 0) return [...nights];
  return nights.map(({ startEpochMs, endEpochMs }) => ({
    startEpochMs: startEpochMs + shiftMs + days * DAY_MS,
    endEpochMs: endEpochMs + shiftMs + days * DAY_MS,
  }));
}

function remembered(sleeps: readonly UtcInterval[], nowEpochMs: number): readonly UtcInterval[] {
  const begun = sleeps.filter(({ startEpochMs }) => startEpochMs < nowEpochMs);
  return begun.filter(
    ({ endEpochMs }, index) => endEpochMs > nowEpochMs - REMEMBERED_MS || index >= begun.length - LEAST_SLEEP_COUNT,
  );
}

const assumedNote = (nights: readonly UtcInterval[]): LogNote => ({
  code: 'log.sleep-assumed',
  entryNumbers: [],
  text: `No sleep is logged: the usual nights are assumed, the last until ${utcWords(nights.at(-1)?.endEpochMs ?? 0)}.`,
});

function awakeNotes(sleeps: readonly UtcInterval[], nowEpochMs: number): LogNote[] {
  const last = sleeps.at(-1);
  if (last === undefined || nowEpochMs - last.endEpochMs <= LONG_AWAKE_H * MS_PER_H) return [];
  const awake = minWords((nowEpochMs - last.endEpochMs) / MS_PER_MIN);
  const text = `The last sleep known ended ${utcWords(last.endEpochMs)}: awake for ${awake}, unless one was not logged.`;
  return [{ code: 'log.long-awake', entryNumbers: [], text }];
}

/** How far the body clock is behind solar time after the logged way. */
function lagAlong({ start, watchkeeper }: Passage, { places }: PlaceNow): number {
  let [lagMin, lon, epochMs] = [watchkeeper.bodyClockLagMin, start.position.lon, start.epochMs];
  for (const place of places) {
    const solarShiftMin = wrap180Deg(place.lon - lon) * SOLAR_MIN_PER_LON_DEG;
    lagMin = nextLagMin({ lagMin, solarShiftMin, elapsedH: (place.epochMs - epochMs) / MS_PER_H });
    [lon, epochMs] = [place.lon, place.epochMs];
  }
  return lagMin;
}
