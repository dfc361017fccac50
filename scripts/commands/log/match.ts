import {
  effectiveEntries,
  type ForecastMatch,
  matchForecast,
  matchText,
  parseLog,
  seenOfLog,
} from '../../../lib/log/index.ts';
import { buildScenarioSet } from '../../../lib/forecast/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { loadPassage } from '../../../server/stores/passage-files.ts';
import { numberOption, reportProblems, WrongUse } from '../arguments.ts';
import { textIn } from '../check.ts';
import type { CommandIo } from '../command.ts';
import { forecastProgress } from '../forecast-progress.ts';
import { passageArguments, passageGiven } from '../passage-arguments.ts';

export const MATCH_HELP = `slatch log match PASSAGE --log LOG.jsonl [--barometer-high HPA] [--now UTC] [--json]

  Holds the wind, pressure and sea of a log against the forecast of a passage: how early or late its weather comes, how
  far wind and sea are off, what the barometer reads high or low, and whether the forecast can be believed.
  --log             the log, one entry a line
  --barometer-high  what the barometer is known to read high [hPa, low below 0]; without it that is estimated
  --now             nothing logged later counts (default: the passage's clock)
  --json            the answer as JSON; every key carries its unit

  slatch log match sample-forecasts/demo-passage.json --log log.jsonl
`;

/** A known offset is still as uncertain as this [hPa]. Ours. */
const KNOWN_OFFSET_SD_HPA = 0.3;
const MOST_OFFSET_HPA = 30;

/** `slatch log match`. */
export async function printMatch(args: readonly string[], io: CommandIo): Promise<number> {
  const given = passageArguments(args, ['log', 'barometer-high']);
  const logFile = given.texts.get('log');
  if (logFile === undefined) throw new WrongUse('--log is missing: which log is to be held against the forecast?');
  const offsetHpa = numberOption(given, 'barometer-high', { least: -MOST_OFFSET_HPA, most: MOST_OFFSET_HPA });
  const text = await textIn(logFile, io);
  if (!text.ok) return refused(io, text.problems);
  const log = parseLog(text.value, logFile);
  if (!log.ok) return refused(io, log.problems);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refused(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const { passage, forecast, nowEpochMs } = passageGiven(given, loaded.value, io);
  const { seen, placelessCount } = seenOfLog(effectiveEntries(log.value), passage.boat, nowEpochMs);
  const { errorModel, seed, spreadInflationRatio, gustRatio } = passage.settings;
  const set = buildScenarioSet(forecast, { errorModel, seed, spreadInflationRatio, gustRatio, purpose: 'planning' });
  const barometer = offsetHpa === null ? {} : { barometer: { offsetHpa, offsetSdHpa: KNOWN_OFFSET_SD_HPA } };
  const match = matchForecast(set, seen, { seed, ...barometer });
  if (placelessCount > 0)
    io.err(`${placelessCount} of the observations left out: it is not logged where the boat was.\n`);
  io.out(given.json ? `${JSON.stringify(published(match), null, 2)}\n` : `${matchText(match).join('\n')}\n`);
  return 0;
}

function refused(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

/** Keys with units, instants as UTC text. */
function published(match: ForecastMatch): unknown {
  if (match.kind === 'nothing-to-compare') return { ...match, text: matchText(match) };
  return {
    kind: match.kind,
    agreement: match.agreement,
    readingCount: match.readingCount,
    offeredCount: match.offeredCount,
    effectiveCount: match.effectiveCount,
    firstUtc: formatUtc(match.firstEpochMs),
    lastUtc: formatUtc(match.lastEpochMs),
    timing: { shiftH: match.timing.shiftH, shiftSdH: match.timing.shiftSd, isShown: match.timing.isShown },
    barometer: match.barometer,
    quantities: match.quantities.map(({ meanDifference, typicalDifference, ...rest }) => ({
      ...rest,
      meanDifference: meanDifference.value,
      typicalDifference: typicalDifference.value,
    })),
    text: matchText(match),
  };
}
