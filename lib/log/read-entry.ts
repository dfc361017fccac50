import { okUnless, type Problem, type Result } from '../result/index.ts';
import { readShape } from '../shape/index.ts';
import { formatUtc, MS_PER_H, parseUtc } from '../time/index.ts';
import {
  logEntryFile,
  type JobEventFile,
  type LogEntryFile,
  type ObservationFile,
  type SleepFile,
  type StatementFile,
} from './entry.ts';

/** Nobody sleeps longer in one go; a longer one is a wrong date. Ours. */
const LONGEST_SLEEP_H = 24;

/**
 * One log entry from its JSON: shape, and sense as far as one entry can be judged alone.
 *
 * What needs the entries before it, the jobs or the clock is said by `appendProblems`.
 *
 * @returns the entry as it was given, or all of `log.missing`, `log.type`, `log.value`, `log.key-unknown`,
 *   `time.not-an-instant`, `log.sleep-order`, `log.sleep-long`, `log.nothing-seen`, `log.half-a-position`,
 *   `log.calm-direction`, `log.gust-below`, `log.not-for-event`
 */
export function readLogEntry(raw: unknown, where: string): Result<LogEntryFile> {
  const shape = readShape(logEntryFile, raw, { where, path: [], codeWord: 'log' });
  if (!shape.ok) return shape;
  const entry = shape.value;
  return okUnless([...instantProblems(entry, where), ...senseProblems(entry, where)], () => entry);
}

/** An entry as one line of a log file, without the line end. */
export const formatLogEntry = (entry: LogEntryFile): string => JSON.stringify(entry);

function instantProblems(entry: LogEntryFile, where: string): Problem[] {
  const at = instantProblem(entry.atUtc, `${where}, atUtc`);
  if (entry.kind === 'sleep') return [...at, ...instantProblem(entry.endUtc, `${where}, endUtc`)];
  if (entry.kind !== 'correction' || entry.by === null) return at;
  return [...at, ...instantProblems(entry.by, `${where}, by`)];
}

function instantProblem(text: string, where: string): Problem[] {
  const read = parseUtc(text, where);
  return read.ok ? [] : [...read.problems];
}

function senseProblems(entry: LogEntryFile, where: string): Problem[] {
  if (entry.kind !== 'correction') return statementProblems(entry, where);
  return entry.by === null ? [] : statementProblems(entry.by, `${where}, by`);
}

function statementProblems(statement: StatementFile, where: string): Problem[] {
  if (statement.kind === 'sleep') return sleepProblems(statement, where);
  if (statement.kind === 'observation') return observationProblems(statement, where);
  return statement.kind === 'job' ? eventProblems(statement, where) : [];
}

function sleepProblems({ atUtc, endUtc }: SleepFile, where: string): Problem[] {
  const start = parseUtc(atUtc, where);
  const end = parseUtc(endUtc, where);
  if (!start.ok || !end.ok) return [];
  if (end.value <= start.value)
    return [
      {
        code: 'log.sleep-order',
        where: `${where}, endUtc`,
        what: `The sleep ends at ${formatUtc(end.value)}, not after it begins at ${formatUtc(start.value)}.`,
        expected: 'an end after the start',
        remedy: 'Exchange the two, or correct the date.',
      },
    ];
  const lengthH = (end.value - start.value) / MS_PER_H;
  if (lengthH <= LONGEST_SLEEP_H) return [];
  return [
    {
      code: 'log.sleep-long',
      where: `${where}, endUtc`,
      what: `The sleep is ${Number(lengthH.toFixed(1))} h long.`,
      expected: `at most ${LONGEST_SLEEP_H} h in one go`,
      remedy: 'Correct the date, or write two sleeps.',
    },
  ];
}

function observationProblems(seen: ObservationFile, where: string): Problem[] {
  return [...nothingSeen(seen, where), ...halfAPosition(seen, where), ...windProblems(seen, where)];
}

function nothingSeen({ kind: _kind, atUtc: _at, ...values }: ObservationFile, where: string): Problem[] {
  if (Object.keys(values).length > 0) return [];
  return [
    {
      code: 'log.nothing-seen',
      where,
      what: 'The observation holds nothing but its time.',
      expected: 'at least one value: position, wind, pressure, sea, sky …',
      remedy: 'Add what was read or seen, or leave the entry out.',
    },
  ];
}

function halfAPosition({ lat, lon }: ObservationFile, where: string): Problem[] {
  if ((lat === undefined) === (lon === undefined)) return [];
  const [is, lacks] = lat === undefined ? ['longitude', 'latitude'] : ['latitude', 'longitude'];
  return [
    {
      code: 'log.half-a-position',
      where: `${where}, ${lat === undefined ? 'lat' : 'lon'}`,
      what: `There is a ${is} without a ${lacks}.`,
      expected: 'both or neither',
      remedy: `Add the ${lacks}, or take the ${is} out.`,
    },
  ];
}

function windProblems({ wind, gustKn }: ObservationFile, where: string): Problem[] {
  const calm =
    wind?.kind === 'true' && wind.speedKn === 0 && wind.fromDegTrue !== undefined
      ? [
          {
            code: 'log.calm-direction',
            where: `${where}, wind.fromDegTrue`,
            what: `A wind of 0 kn blows from ${wind.fromDegTrue}° true.`,
            expected: 'a direction only where there is a wind',
            remedy: 'Take the direction out, or correct the speed.',
          },
        ]
      : [];
  if (wind === undefined || gustKn === undefined || gustKn >= wind.speedKn) return calm;
  return [
    ...calm,
    {
      code: 'log.gust-below',
      where: `${where}, gustKn`,
      what: `The gust of ${gustKn} kn is less than the wind of ${wind.speedKn} kn.`,
      expected: 'a gust at least as strong as the mean wind of the same instrument',
      remedy: 'Correct one of the two, or leave the gust out.',
    },
  ];
}

function eventProblems({ event, stepId, workedMin }: JobEventFile, where: string): Problem[] {
  return [
    ...(stepId !== undefined && (event === 'started' || event === 'done') ? [notForEvent('stepId', event, where)] : []),
    ...(workedMin !== undefined && event === 'started' ? [notForEvent('workedMin', event, where)] : []),
  ];
}

const notForEvent = (key: 'stepId' | 'workedMin', event: JobEventFile['event'], where: string): Problem => ({
  code: 'log.not-for-event',
  where: `${where}, ${key}`,
  what: `${key} does not go with the event "${event}".`,
  expected: key === 'stepId' ? 'a step only with safe-point and stopped' : 'minutes once something has been worked',
  remedy: 'Take it out, or correct the event.',
});
