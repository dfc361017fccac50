import { PACE_RATIO_RANGE } from '../../person/index.ts';
import type { LogNote } from '../log-note.ts';
import type { WorkMeasure } from './measures.ts';
import { LONGEST_CLOCK_MIN } from './pieces.ts';

/** What of the work in the log does not count as it stands, and why. */
export const paceNotes = (measures: readonly WorkMeasure[]): readonly LogNote[] => measures.flatMap(notesOf);

function notesOf(measure: WorkMeasure): LogNote[] {
  const note = (code: string, text: string): LogNote => ({ code, entryNumbers: [measure.entryNumber], text });
  if (measure.leftOut === 'minutes-unknown') return [note('log.pace-minutes-unknown', unknownText(measure))];
  if (measure.leftOut === 'mixed-kinds')
    return [
      note(
        'log.pace-mixed',
        `${measure.jobName}: work of several kinds in one piece says nothing of your pace at one.`,
      ),
    ];
  const { ratio, rawRatio, workedMin, plannedMin } = measure;
  const notes: LogNote[] = [];
  if (ratio !== null && rawRatio !== null && ratio !== rawRatio)
    notes.push(note('log.pace-outside', outsideText(measure, { ratio, rawRatio })));
  if (measure.factorsRatio === null)
    notes.push(
      note(
        'log.pace-factors-unknown',
        `${measure.jobName}: ${minutes(workedMin ?? 0)} worked against ${minutes(plannedMin)} of the times given; no kept plan says what wind, cold, dark or tiredness cost in these hours.`,
      ),
    );
  return notes;
}

const minutes = (lengthMin: number): string => `${lengthMin.toFixed(0)} min`;

const unknownText = ({ jobName, workedMin }: WorkMeasure): string =>
  workedMin === 0
    ? `${jobName}: no minute was worked at it, so it says nothing of your pace.`
    : `${jobName}: how long it was worked at is not known, so it says nothing of your pace. Minutes are wanted where start or end is not logged, where it lay for a soak or cure, and beyond ${LONGEST_CLOCK_MIN} min on the clock.`;

const outsideText = (
  { jobName, workedMin, plannedMin }: WorkMeasure,
  { ratio, rawRatio }: { ratio: number; rawRatio: number },
): string =>
  `${jobName}: ${minutes(workedMin ?? 0)} worked against ${minutes(plannedMin)} planned is a factor of ${rawRatio.toFixed(2)}; it counts as ${ratio.toFixed(1)}, since only ${PACE_RATIO_RANGE.leastRatio} to ${PACE_RATIO_RANGE.mostRatio} is taken for pace.`;
