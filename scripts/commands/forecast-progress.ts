import type { DecodeProgress } from '../../server/decoding/index.ts';
import type { CommandIo } from './command.ts';

/** Seconds between two lines. */
const EVERY_S = 2;

/** Says on standard error how far the reading of a long forecast is; silent where it takes less than two seconds. */
export function forecastProgress(io: CommandIo): (progress: DecodeProgress) => void {
  let saidEpochMs: number | null = null;
  return ({ donePoints, allPoints }) => {
    const nowEpochMs = io.nowEpochMs();
    saidEpochMs ??= nowEpochMs;
    if (nowEpochMs - saidEpochMs < EVERY_S * 1000 || donePoints === allPoints) return;
    saidEpochMs = nowEpochMs;
    io.err(`reading the forecast: ${Math.floor((100 * donePoints) / allPoints)} %\n`);
  };
}
