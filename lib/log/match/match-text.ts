import { formatUtc } from '../../time/index.ts';
import type { ComparedForecast, ForecastMatch, QuantityMatch, SeenTiming } from './forecast-match.ts';

/** The match in words: one line that says it, then how it was found. */
export function matchText(match: ForecastMatch): string[] {
  if (match.kind === 'nothing-to-compare') return [nothingText(match)];
  return [headline(match), countLine(match), ...match.quantities.map(quantityLine), ...poorLines(match)];
}

/** The one line, and a warning where agreement is poor: what a plan says of it. */
export const shortMatchText = (match: ForecastMatch): string[] =>
  match.kind === 'nothing-to-compare' ? [nothingText(match)] : [headline(match), ...poorLines(match)];

const nothingText = (match: { readonly reason: 'no-readings' | 'outside-forecast'; readonly readingCount: number }) =>
  match.reason === 'no-readings'
    ? 'Nothing in the log to hold against the forecast: no wind, pressure or sea was read.'
    : `Nothing to compare: the forecast holds none of the ${readings(match.readingCount)} at its place and time.`;

function headline(match: ComparedForecast): string {
  const parts = [timingWords(match.timing), ...levelWords(match), ...barometerWords(match)];
  return `${upper(parts.join('; '))}; agreement ${match.agreement} (n = ${match.readingCount}).`;
}

const upper = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

/** Below half an hour the weather is on time. */
function timingWords({ shiftH, shiftSd, isShown, isFront }: SeenTiming): string {
  const what = isFront ? 'front' : 'weather';
  if (!isShown) return 'timing not shown by these readings';
  const giveH = Math.max(1, Math.round(shiftSd));
  const wholeH = Math.round(Math.abs(shiftH));
  if (wholeH === 0) return `${what} on time (± ${giveH} h)`;
  return `${what} about ${wholeH} h ${shiftH < 0 ? 'early' : 'late'} (± ${giveH} h)`;
}

function levelWords({ quantities }: ComparedForecast): string[] {
  return quantities.flatMap((one) => {
    const { value } = one.meanDifference;
    if (one.quantity === 'pressure' || (one.quantity === 'gust' && quantities.some(isWind))) return [];
    if (one.quantity === 'direction') return Math.abs(value) < NOTED_TURN_DEG ? [] : [turnWords(value)];
    return [overUnder(one)];
  });
}

const isWind = ({ quantity }: QuantityMatch): boolean => quantity === 'wind';

/** A turn smaller than this is not worth a word: nobody reads the wind nearer. */
const NOTED_TURN_DEG = 10;

const turnWords = (turnDeg: number): string =>
  `wind ${Math.round(Math.abs(turnDeg))}° ${turnDeg > 0 ? 'clockwise' : 'anticlockwise'} of forecast`;

function overUnder({ quantity, unit, meanDifference: { value } }: QuantityMatch): string {
  const amount = Math.abs(value).toFixed(unit === 'm' ? 1 : 0);
  if (Number(amount) === 0) return `${quantity} as forecast`;
  return `${quantity} ${amount} ${unit} ${value > 0 ? 'over' : 'under'} forecast`;
}

function barometerWords({ barometer }: ComparedForecast): string[] {
  if (barometer === null) return [];
  const amount = Math.abs(barometer.offsetHpa).toFixed(1);
  if (Number(amount) === 0) return ['barometer reads true'];
  return [`barometer reads ${amount} hPa ${barometer.offsetHpa > 0 ? 'high' : 'low'}`];
}

const readings = (count: number): string => `${count} ${count === 1 ? 'reading' : 'readings'}`;

function countLine(match: ComparedForecast): string {
  const span =
    match.readingCount === 1
      ? `at ${formatUtc(match.firstEpochMs)}`
      : `from ${formatUtc(match.firstEpochMs)} to ${formatUtc(match.lastEpochMs)}`;
  const leftOut = match.offeredCount - match.readingCount;
  return (
    `${upper(readings(match.readingCount))} ${span}, worth ${match.effectiveCount.toFixed(1)} independent ones` +
    `${leftOut === 0 ? '' : `; ${leftOut} more the forecast does not hold`}.`
  );
}

function quantityLine(one: QuantityMatch): string {
  const digits = one.unit === 'm' || one.unit === 'hPa' ? 1 : 0;
  const told = (value: number): string => `${value.toFixed(digits)} ${one.unit}`;
  const mean = one.meanDifference.value;
  const signed = `${mean < 0 ? '−' : '+'}${told(Math.abs(mean))}`;
  const offset = one.quantity === 'pressure' ? ' once the offset is taken off' : '';
  return (
    `${upper(one.quantity)}: ${signed} on average against the forecast so shifted, ${told(one.typicalDifference.value)} ` +
    `typically${offset}; ${one.distanceSd.toFixed(1)} times the usual; ${one.agreement} (n = ${one.readingCount}).`
  );
}

const poorLines = ({ agreement }: ComparedForecast): string[] =>
  agreement === 'poor'
    ? [
        'The forecast does not fit what was read: its errors are taken 1.3 times as large, and half of the weight stays ' +
          'with the forecast as it was. Trust windows less, and look for a newer forecast.',
      ]
    : [];
