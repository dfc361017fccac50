import { quantityOf } from '../../lib/forecast/index.ts';
import type { Result } from '../../lib/result/index.ts';
import type { FetchedForecast } from '../fetchers/index.ts';
import { sizeText } from './amount-sizes.ts';

/** What has come, in sentences; nothing where nothing has. */
export function fetchResultLines(result: Result<FetchedForecast>): string[] {
  if (!result.ok) return ['What had come is kept, and the next try goes on from there.'];
  const { sizeOctets, fieldCount, quantities, missing, isNew } = result.value;
  return [
    `${sizeText(sizeOctets)}, ${fieldCount} fields: ${quantities.map((id) => quantityOf(id).name).join(', ')}.`,
    ...(isNew ? [] : ['The very same file was here already.']),
    ...(missing.length === 0 ? [] : [`The source does not list ${missing.join('; ')}.`]),
  ];
}
