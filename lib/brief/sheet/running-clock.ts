import { blocksOf, pertDuration, type Step } from '../../jobs/index.ts';
import { MS_PER_MIN } from '../../time/index.ts';
import { grouped } from './grouped.ts';
import type { SheetRow } from './sheet.ts';
import { type SheetTimes, sheetTimes } from './sheet-times.ts';
import type { SheetWork, WorkEntry } from './sheet-work.ts';

/** Steps with the hour each should begin, safe points with the time to beat, waits with their end. */
export function runningClock(work: SheetWork): SheetRow[] {
  const { job, passage, entries } = work;
  const doneIds = passage.orders.jobs.get(job.id)?.doneStepIds ?? [];
  const done = job.steps.filter(({ id }) => doneIds.includes(id)).map(({ name }): SheetRow => ({ kind: 'done', name }));
  const open = job.steps.filter(({ id }) => !doneIds.includes(id));
  return [...done, ...(entries.length === 0 ? withoutHours(work, open) : withHours(work, open))];
}

const stepRow = (step: Step, clock: string, lengthMin: number): SheetRow => ({
  kind: 'step',
  clock,
  name: step.name,
  lengthMin: Math.round(lengthMin),
  place: step.place,
  clipTo: step.clipTo,
  stop: step.stop,
  lookout: step.lookout,
});

const meanMin = (step: Step): number => pertDuration(step.work).meanMin;

/** The job has no time yet: minutes at library pace, from zero. */
function withoutHours({ job }: SheetWork, open: readonly Step[]): SheetRow[] {
  let elapsedMin = 0;
  const clock = (): string => `+${Math.floor(elapsedMin / 60)}:${String(Math.round(elapsedMin) % 60).padStart(2, '0')}`;
  return blocksOf(job).flatMap(({ steps }) => {
    const left = steps.filter(({ id }) => open.some((step) => step.id === id));
    const rows = left.map((step) => {
      const row = stepRow(step, clock(), meanMin(step));
      elapsedMin += Math.round(meanMin(step));
      return row;
    });
    return rows.length === 0 ? [] : [...rows, { kind: 'safe-point', clock: clock(), text: 'Safe point' } as const];
  });
}

function withHours(work: SheetWork, open: readonly Step[]): SheetRow[] {
  const times = sheetTimes(work.names.shipTimeOffsetMin);
  const shares = new Map(parts(work.entries).map((part) => [part, pieces(part, open)]));
  const all = [...shares.values()].flat().toSorted((a, b) => a.worked.startEpochMs - b.worked.startEpochMs);
  return all.flatMap((piece, index) => [
    ...piece.rows.map(({ step, fromEpochMs, lengthMin }) => stepRow(step, times.ship(fromEpochMs), lengthMin)),
    ...endRows(work, piece, { times, isLast: index === all.length - 1 }),
  ]);
}

/** Entries that work on the same steps: one block, in one go or in sessions. */
function parts(entries: readonly WorkEntry[]): (readonly WorkEntry[])[] {
  const byKey = grouped(entries, ({ entry }) => entry.stepIds.join(' '));
  return [...byKey.values()];
}

/** What is done in one entry. */
interface Piece {
  readonly worked: WorkEntry;
  readonly rows: readonly { readonly step: Step; readonly fromEpochMs: number; readonly lengthMin: number }[];
  /** More of the same steps follows in a later entry. */
  readonly isGoingOn: boolean;
}

/**
 * Divides a block's hours among its steps by their mean minutes; what takes it longer than at library pace takes every
 * step longer alike. In sessions a step may go on in the next.
 */
function pieces(part: readonly WorkEntry[], open: readonly Step[]): Piece[] {
  const steps = open.filter(({ id }) => part[0]?.entry.stepIds.includes(id));
  const wholeMin = part.reduce((sum, worked) => sum + lengthMinOf(worked), 0);
  const stepsMin = steps.reduce((sum, step) => sum + meanMin(step), 0);
  const ratio = stepsMin === 0 ? 0 : wholeMin / stepsMin;
  let beforeMin = 0;
  return part.map((worked, index) => {
    const [fromMin, toMin] = [beforeMin, beforeMin + lengthMinOf(worked)];
    beforeMin = toMin;
    let stepFromMin = 0;
    const rows = steps.flatMap((step) => {
      const [beginMin, endMin] = [stepFromMin, stepFromMin + meanMin(step) * ratio];
      stepFromMin = endMin;
      const insideFromMin = Math.max(fromMin, beginMin);
      const lengthMin = Math.min(toMin, endMin) - insideFromMin;
      // A remainder below a minute is none.
      if (lengthMin < 1) return [];
      return [{ step, fromEpochMs: worked.startEpochMs + (insideFromMin - fromMin) * MS_PER_MIN, lengthMin }];
    });
    return { worked, rows, isGoingOn: index < part.length - 1 };
  });
}

const lengthMinOf = ({ startEpochMs, endEpochMs }: WorkEntry): number => (endEpochMs - startEpochMs) / MS_PER_MIN;

function endRows(
  { plan, job }: SheetWork,
  { worked, isGoingOn }: Piece,
  of: { times: SheetTimes; isLast: boolean },
): SheetRow[] {
  const { times } = of;
  const clock = times.ship(worked.endEpochMs);
  const lastId = worked.entry.stepIds.at(-1) ?? '';
  const wait = isGoingOn
    ? undefined
    : plan.entries.find(({ kind, jobId, stepIds }) => kind === 'wait' && jobId === job.id && stepIds.includes(lastId));
  const text = isGoingOn ? 'Session over: make safe, rest' : of.isLast ? 'All done' : 'Safe point';
  const kind = job.steps.find(({ id }) => id === lastId)?.waitAfter?.kind ?? 'wait';
  return [
    { kind: 'safe-point', clock, text },
    ...(wait === undefined
      ? []
      : [{ kind: 'wait', clock: times.ship(Date.parse(wait.endUtc)), text: `${WAIT_WORDS[kind]} until` } as const]),
  ];
}

const WAIT_WORDS = {
  soak: 'Soaks',
  cure: 'Cures',
  dry: 'Dries',
  settle: 'Settles',
  wait: 'Waits',
} as const;
