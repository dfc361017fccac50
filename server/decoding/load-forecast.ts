import { availableParallelism } from 'node:os';
import {
  completeForecast,
  type Forecast,
  type ForecastFile,
  outlineForecast,
  tooMuch,
  type Box,
} from '../../lib/forecast/index.ts';
import { failed, type Result } from '../../lib/result/index.ts';
import { decodeTasks, type DecodeProgress } from './decode-tasks.ts';

export interface LoadOptions {
  /** Area that will be asked for. */
  readonly around?: Box;
  readonly onProgress?: (progress: DecodeProgress) => void;
  /** Aborted: the promise rejects with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Default: the machine's cores, four at most. */
  readonly threadCount?: number;
}

/** More threads than this wait for memory, not for the processor. */
const MOST_THREADS = 4;

/** As `buildForecast`, with the fields of long files decoded on several threads. */
export async function loadForecast(
  files: readonly ForecastFile[],
  options: LoadOptions = {},
): Promise<Result<Forecast>> {
  const { around, ...rest } = options;
  const outline = outlineForecast(files, around === undefined ? {} : { around });
  const refusal = tooMuch(outline);
  if (refusal !== null) return failed(refusal);
  const threadCount = options.threadCount ?? Math.min(availableParallelism(), MOST_THREADS);
  const decoded = await decodeTasks(outline.wanted, { ...rest, threadCount });
  const valuesOf = new Map(outline.wanted.map(({ field }, i) => [field, decoded[i]]));
  return completeForecast(outline, (field) => {
    const values = valuesOf.get(field);
    if (values === undefined) throw new Error(`field ${field.fieldNumber} was not decoded`);
    return values;
  });
}
