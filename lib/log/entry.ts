/** What can be written in the log, as it is stored and mailed: one entry, in the shape of its JSON. */
import { z } from 'zod';

const instant = z.string().max(40).describe('ISO 8601 with Z or an offset');
const words = z
  .string()
  .min(1)
  .max(500)
  .regex(/^\P{Cc}*$/u, 'text without control characters');
const jobId = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/, 'letters, digits, - and _');

/** Wind over the ground at the height of the instrument, or brought to true by the instruments themselves. */
const trueWindFile = z.strictObject({
  kind: z.literal('true'),
  speedKn: z.number().min(0).max(150),
  fromDegTrue: z.number().min(0).max(360).exactOptional(),
});

/** Wind as the instrument at the masthead shows it while the boat moves. */
const apparentWindFile = z.strictObject({
  kind: z.literal('apparent'),
  speedKn: z.number().min(0).max(150),
  angleDeg: z.number().min(-180).max(360).describe('from the bow; starboard positive, port negative or above 180'),
  headingDegTrue: z.number().min(0).max(360),
  boatSpeedKn: z.number().min(0).max(40),
});

/** What was read and seen at one time; at least one value. */
const observationFile = z.strictObject({
  kind: z.literal('observation'),
  atUtc: instant,
  lat: z.number().min(-90).max(90).exactOptional(),
  lon: z.number().min(-180).max(180).exactOptional(),
  sailState: z.string().min(1).max(60).exactOptional().describe('sail state of the boat that is set'),
  wind: z.discriminatedUnion('kind', [trueWindFile, apparentWindFile]).exactOptional(),
  gustKn: z.number().min(0).max(200).exactOptional(),
  pressureHpa: z.number().min(870).max(1090).exactOptional().describe('as the boat’s barometer shows it'),
  seaHeightM: z.number().min(0).max(30).exactOptional(),
  wavePeriodS: z.number().min(1).max(30).exactOptional(),
  sky: z.enum(['clear', 'partly-cloudy', 'overcast', 'squalls', 'fog']).exactOptional(),
  rain: z.boolean().exactOptional(),
  visibilityNm: z.number().min(0).max(60).exactOptional(),
  airC: z.number().min(-40).max(60).exactOptional(),
  seaWaterC: z.number().min(-3).max(40).exactOptional(),
  note: words.exactOptional(),
});

/** Time in the bunk; `atUtc` is when it began. */
const sleepFile = z.strictObject({
  kind: z.literal('sleep'),
  atUtc: instant,
  endUtc: instant,
  note: words.exactOptional(),
});

/** What became of a job at one time. */
const jobEventFile = z.strictObject({
  kind: z.literal('job'),
  atUtc: instant,
  jobId,
  event: z.enum(['started', 'safe-point', 'stopped', 'done']),
  stepId: jobId.exactOptional().describe('of a safe point: the last step that is finished'),
  workedMin: z
    .number()
    .min(0)
    .max(6000)
    .exactOptional()
    .describe('minutes of work since the start or the last safe point, breaks left out'),
  note: words.exactOptional(),
});

const noteFile = z.strictObject({ kind: z.literal('note'), atUtc: instant, note: words });

const statementFile = z.discriminatedUnion('kind', [observationFile, sleepFile, jobEventFile, noteFile]);

/** Takes the place of an earlier entry, or withdraws it: nothing is ever changed or removed. */
const correctionFile = z.strictObject({
  kind: z.literal('correction'),
  atUtc: instant.describe('when it was corrected'),
  corrects: z.int().min(1).describe('number of the entry corrected'),
  by: statementFile.nullable().describe('what is right; null: it did not happen'),
  note: words.exactOptional(),
});

export const logEntryFile = z.discriminatedUnion('kind', [
  observationFile,
  sleepFile,
  jobEventFile,
  noteFile,
  correctionFile,
]);

export type LogEntryFile = z.infer<typeof logEntryFile>;
export type StatementFile = z.infer<typeof statementFile>;
export type ObservationFile = z.infer<typeof observationFile>;
export type JobEventFile = z.infer<typeof jobEventFile>;
export type SleepFile = z.infer<typeof sleepFile>;

/** An entry with the number it was given when it was written down, from 1. */
export interface NumberedEntry {
  readonly number: number;
  readonly entry: LogEntryFile;
}
