import type { PassageFile } from '../lib/passage/index.ts';
import { failed, ok, type Result } from '../lib/result/index.ts';

/** The passage planned with these forecasts, in this order. */
export function withForecasts(file: PassageFile, references: readonly string[]): Result<PassageFile> {
  const chosen = [...new Set(references)].filter((reference) => reference !== '');
  if (chosen.length > 0) return ok({ ...file, forecasts: chosen });
  return failed({
    code: 'passage.no-forecast',
    where: 'forecasts',
    what: 'No forecast is chosen.',
    expected: 'at least one',
    remedy: 'Tick one: without a forecast there is no plan.',
  });
}
