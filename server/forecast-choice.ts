import type { PassageFile } from '../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';

/** What a form chose, and what its page offered. */
export interface ForecastChoice {
  readonly references: readonly string[];
  readonly offered: readonly string[];
}

/**
 * The passage planned with these forecasts, in this order.
 *
 * Only what was offered is taken: a form may hold the path of any file of this machine, which is nobody's to try.
 */
export function withForecasts(file: PassageFile, { references, offered }: ForecastChoice): Result<PassageFile> {
  const chosen = [...new Set(references)].filter((reference) => reference !== '');
  const [first, ...rest] = chosen.filter((reference) => !offered.includes(reference)).map(notOffered);
  if (first !== undefined) return failed(first, ...rest);
  if (chosen.length > 0) return ok({ ...file, forecasts: chosen });
  return failed({
    code: 'passage.no-forecast',
    where: 'forecasts',
    what: 'No forecast is chosen.',
    expected: 'at least one',
    remedy: 'Tick one: without a forecast there is no plan.',
  });
}

const notOffered = (reference: string): Problem => ({
  code: 'passage.forecast-not-offered',
  where: 'forecasts',
  what: `"${reference}" is no forecast of this passage or of the store.`,
  expected: 'forecasts of the list',
  remedy: 'Load the page again and tick some of its list; a file of your own is sent with the form below it.',
});
