import type { Passage } from '../../passage/index.ts';
import { utcWords } from '../words.ts';
import type { LogNote } from '../log-note.ts';
import type { Known, Noted } from './known.ts';

interface Sighting {
  readonly id: string;
  readonly atEpochMs: number;
  readonly entryNumbers: readonly number[];
  /** What it follows from, for words; empty: it was seen. */
  readonly from: string;
}

/**
 * What is set now: as last observed, or as a finished step leaves it, whichever is later; what was seen has the last word
 * where both are of one time. Older than the passage's start it says nothing.
 */
export function sailStateNow(passage: Passage, known: Known): Noted<string> {
  const { start, boat } = passage;
  const all = [...byFinishedSteps(passage, known), ...seen(known)].filter(
    ({ atEpochMs }) => atEpochMs >= start.epochMs,
  );
  const isOnBoard = (id: string): boolean => boat.sailStates.some((state) => state.id === id);
  const strange = all.filter(({ id }) => !isOnBoard(id)).map(strangeNote);
  const last = all
    .filter(({ id }) => isOnBoard(id))
    .toSorted((a, b) => a.atEpochMs - b.atEpochMs)
    .at(-1);
  if (last === undefined) return { value: start.sailStateId, notes: strange };
  const name = boat.sailStates.find(({ id }) => id === last.id)?.name ?? last.id;
  const text = `Sails: ${name} since ${utcWords(last.atEpochMs)}${last.from === '' ? ', as seen' : `, ${last.from}`}.`;
  return { value: last.id, notes: [...strange, { code: 'log.sail-state', entryNumbers: last.entryNumbers, text }] };
}

const seen = ({ effective }: Known): Sighting[] =>
  effective.flatMap(({ number, statement, atEpochMs }) =>
    statement.kind === 'observation' && statement.sailState !== undefined
      ? [{ id: statement.sailState, atEpochMs, entryNumbers: [number], from: '' }]
      : [],
  );

function byFinishedSteps({ jobs }: Passage, { states }: Known): Sighting[] {
  return states.flatMap(({ jobId, finishedSteps }) => {
    const job = jobs.find(({ id }) => id === jobId);
    return finishedSteps.flatMap(({ stepId, atEpochMs }) => {
      const step = job?.steps.find(({ id }) => id === stepId);
      const id = step?.sailStateAfter ?? null;
      if (job === undefined || step === undefined || atEpochMs === null || id === null) return [];
      return [{ id, atEpochMs, entryNumbers: [], from: `${job.name}, after "${step.name}"` }];
    });
  });
}

const strangeNote = ({ id, entryNumbers }: Sighting): LogNote => ({
  code: 'log.sail-state-unknown',
  entryNumbers,
  text: `The boat has no sail state "${id}": it is left out.`,
});
