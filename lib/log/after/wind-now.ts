import type { Boat } from '../../boat/index.ts';
import type { LogNote } from '../log-note.ts';
import { TRUE_WIND_LEAVES_OUT, trueWindOf } from '../true-wind.ts';
import { utcWords } from '../words.ts';
import type { Known } from './known.ts';

/** The wind observed last, as a forecast gives it, and how it was reckoned. */
export function windNotes(boat: Boat, { effective }: Known): LogNote[] {
  const winds = effective.flatMap(({ number, statement, atEpochMs }) => {
    const wind = statement.kind === 'observation' ? trueWindOf(statement, boat) : null;
    return wind === null ? [] : [{ ...wind, number, atEpochMs }];
  });
  const last = winds.at(-1);
  if (last === undefined) return [];
  const { windKn, windFromDegTrue, isFromApparent } = last;
  const from = windFromDegTrue === null ? '' : ` from ${Math.round(windFromDegTrue) % 360} deg true`;
  const how = isFromApparent ? `, ${TRUE_WIND_LEAVES_OUT}` : '';
  const text = `Wind at ${utcWords(last.atEpochMs)}: ${windKn.toFixed(0)} kn${from}, brought to 10 m${how}.`;
  return [{ code: 'log.wind', entryNumbers: [last.number], text }];
}
