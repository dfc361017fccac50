import type { Job, MaterialNeed } from '../../jobs/index.ts';
import type { Passage } from '../../passage/index.ts';
import { itemKey, type Locker, type LockerItem } from '../../stock/index.ts';
import type { LogNote } from '../log-note.ts';
import { figure } from '../words.ts';
import type { Known, Noted } from './known.ts';

/** Rounding of sums is not a shortage. */
const NEGLIGIBLE_SHARE = 1e-9;

/** When the lines of a locker were counted [epoch ms]. */
export interface LockerCounts {
  readonly allEpochMs: number;
  /** Lines counted later than the rest, by `itemKey`. */
  readonly byItem: ReadonlyMap<string, number>;
}

/**
 * What is on board now: what finished steps have used since the locker was counted is off, the reserve is not spared, and
 * what finished jobs have made is added where the locker lists it (elsewhere it counts as made without a line).
 *
 * Steps the passage file says are done were done before the count. A step begun takes nothing yet: its materials stay
 * needed in full. A locker that lists nothing stays so.
 *
 * @param counts when the lines were counted
 */
export function lockerNow(passage: Passage, { states }: Known, counts: LockerCounts): Noted<Locker> {
  const { jobs, locker } = passage;
  if (locker.items.length === 0) return { value: locker, notes: [] };
  let items = locker.items;
  const notes: LogNote[] = [];
  const changed = new Set<string>();
  for (const state of states) {
    const job = jobs.find(({ id }) => id === state.jobId);
    if (job === undefined) continue;
    for (const need of takenSince(job, state, counts)) {
      const taken = less(items, need);
      items = taken.items;
      changed.add(need.item);
      if (taken.short.amount > need.amount * NEGLIGIBLE_SHARE) notes.push(shortNote(job, taken.short));
    }
    const doneEpochMs = state.status === 'done' ? (state.doneEpochMs ?? -Infinity) : -Infinity;
    for (const make of job.makes) if (doneEpochMs > countedEpochMs(counts, make.item)) items = more(items, make);
  }
  return { value: items === locker.items ? locker : { items }, notes: [...notes, ...usedNotes(changed)] };
}

/** What the finished steps of a job have used since each item was counted. */
function takenSince(job: Job, { finishedSteps }: Known['states'][number], counts: LockerCounts): MaterialNeed[] {
  return finishedSteps.flatMap(({ stepId, atEpochMs }) => {
    const materials = job.steps.find(({ id }) => id === stepId)?.materials ?? [];
    return materials.filter(({ item }) => atEpochMs !== null && atEpochMs > countedEpochMs(counts, item));
  });
}

const countedEpochMs = ({ allEpochMs, byItem }: LockerCounts, item: string): number =>
  byItem.get(itemKey(item)) ?? allEpochMs;

const isOf = (line: LockerItem, need: MaterialNeed): boolean =>
  itemKey(line.item) === itemKey(need.item) && line.unit === need.unit && line.kind !== 'tool';

/** The lines without what is needed, and how much of it they do not hold. */
function less(
  items: readonly LockerItem[],
  need: MaterialNeed,
): { readonly items: readonly LockerItem[]; readonly short: MaterialNeed } {
  let openAmount = need.amount;
  const left = items.map((line) => {
    const amount = isOf(line, need) ? Math.min(line.onBoardAmount, openAmount) : 0;
    if (amount === 0) return line;
    openAmount -= amount;
    return { ...line, onBoardAmount: withoutDust(line.onBoardAmount - amount) };
  });
  return { items: left, short: { ...need, amount: openAmount } };
}

function more(items: readonly LockerItem[], make: MaterialNeed): readonly LockerItem[] {
  const index = items.findIndex((line) => isOf(line, make) && line.kind !== 'bar');
  return items.map((line, k) =>
    k === index ? { ...line, onBoardAmount: withoutDust(line.onBoardAmount + make.amount) } : line,
  );
}

const withoutDust = (value: number): number => Number(value.toPrecision(12));

const shortNote = ({ name }: Job, { item, amount, unit }: MaterialNeed): LogNote => ({
  code: 'log.locker-short',
  entryNumbers: [],
  text: `${name} takes ${figure(amount)} ${unit} of ${item} more than the locker lists: count it again.`,
});

const usedNotes = (changed: ReadonlySet<string>): LogNote[] =>
  changed.size === 0
    ? []
    : [
        {
          code: 'log.locker-used',
          entryNumbers: [],
          text: `Taken off the locker for finished work: ${[...changed].toSorted().join(', ')}.`,
        },
      ];
