import { numbersAbove, type StartCheck } from './start-numbers.ts';

const NAMES = {
  instrumentWindKn: { name: 'wind at the instrument', unit: 'kn', digitCount: 0 },
  instrumentGustKn: { name: 'gust at the instrument', unit: 'kn', digitCount: 0 },
  seaM: { name: 'sea', unit: 'm', digitCount: 1 },
  trueWindKn: { name: 'true wind (10 m)', unit: 'kn', digitCount: 0 },
} as const;

/** Less sure than this, the start check is a toss-up. */
const EVEN_PROBABILITY = 0.5;

export interface StartCheckWords {
  /** An instant as the reader's clock shows it. */
  readonly time: (utc: string) => string;
  /** Last fair start around the planned one; null: not known. */
  readonly lastStartUtc: string | null;
  /** Start of the second window; null: there is none. */
  readonly secondUtc: string | null;
}

/**
 * What the start check will probably say at the planned start, where that is not simply “go”: the numbers expected above
 * their start numbers, and what to do. Null: it is expected to pass.
 *
 * The plan asks that the weather stays at or below each limit; the start check asks less of it, a fifth below, at the
 * moment of the start. So a plan may well stand while its start check will probably say “wait”.
 */
export function startCheckText(check: StartCheck, words: StartCheckWords): string | null {
  const above = numbersAbove(check);
  const isUnsure = check.passProbability !== null && check.passProbability < EVEN_PROBABILITY;
  if (above.length === 0 && !isUnsure) return null;
  const passes =
    check.passProbability === null ? '' : ` (it passes in ${Math.round(check.passProbability * 100)} of 100)`;
  const said = above.map((name) => {
    const { name: what, unit, digitCount } = NAMES[name];
    const text = (value: number | null): string => `${(value ?? 0).toFixed(digitCount)} ${unit}`;
    return `${what} ${text(check.expected[name])} expected, start at ${text(check.start[name])} or less`;
  });
  const why = said.length === 0 ? 'no number is expected above, but one of them easily is' : said.join('; ');
  return `The start check will probably say wait${passes}: ${why}. ${whatToDo(check, words)}`;
}

function whatToDo(check: StartCheck, { time, lastStartUtc, secondUtc }: StartCheckWords): string {
  const second =
    secondUtc === null
      ? 'leave it, and plan again with the next forecast'
      : `take the second window, from ${time(secondUtc)}`;
  const last = lastStartUtc === null ? '' : `, ${time(lastStartUtc)} at the latest`;
  const isLater = numbersAbove(check).length > 0 && check.passesFromUtc !== null;
  const from = isLater ? `Likely to pass from ${time(check.passesFromUtc ?? '')}. ` : '';
  return `${from}Look every half hour, start when it passes${last}; else ${second}.`;
}
