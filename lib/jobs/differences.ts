import type { Job, Step } from './job.ts';

/** One figure or text in which a job departs from the library job it was made from. */
export interface Difference {
  /** Step concerned; null: the whole job. */
  readonly stepId: string | null;
  /** `work.likelyMin`, `limits.deckWindKn.noGo`, `handlings`. */
  readonly key: string;
  /** As in the library; null: it has no such thing. */
  readonly library: string | null;
  readonly own: string | null;
}

/** What is a job's own in any case. */
const OF_THE_PASSAGE: ReadonlySet<string> = new Set(['id', 'from', 'after', 'priorityWeight', 'steps', 'provenance']);

/** What of a job is not as in the library, in the order of its steps; steps left out and added are named. */
export function differencesFrom(library: Job, job: Job): readonly Difference[] {
  const ids = [...new Set([...library.steps, ...job.steps].map(({ id }) => id))];
  return [
    ...between(null, plain(library), plain(job)).filter(({ key }) => !OF_THE_PASSAGE.has(key.split('.')[0] ?? '')),
    ...ids.flatMap((id) => stepDifferences(id, stepOf(library, id), stepOf(job, id))),
    ...orderDifference(library.steps, job.steps),
  ];
}

const stepOf = (job: Job, id: string): Step | null => job.steps.find((step) => step.id === id) ?? null;

function stepDifferences(stepId: string, library: Step | null, own: Step | null): readonly Difference[] {
  if (library === null || own === null)
    return [{ stepId, key: 'step', library: library?.name ?? null, own: own?.name ?? null }];
  return between(stepId, plain(library), plain(own));
}

/** Steps both have, in another order. */
function orderDifference(library: readonly Step[], own: readonly Step[]): readonly Difference[] {
  const common = (steps: readonly Step[], others: readonly Step[]): string =>
    steps
      .map(({ id }) => id)
      .filter((id) => others.some((other) => other.id === id))
      .join(', ');
  const [before, after] = [common(library, own), common(own, library)];
  return before === after ? [] : [{ stepId: null, key: 'order of steps', library: before, own: after }];
}

type Plain = Readonly<Record<string, string>>;

function between(stepId: string | null, library: Plain, own: Plain): readonly Difference[] {
  const keys = [...new Set([...Object.keys(library), ...Object.keys(own)])];
  return keys.flatMap((key) =>
    library[key] === own[key] ? [] : [{ stepId, key, library: library[key] ?? null, own: own[key] ?? null }],
  );
}

/** Every value that is no object under its dotted key; lists as a whole. */
function plain(value: object, under = ''): Plain {
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, part]: [string, unknown]): [string, string][] => {
      const key = `${under}${name}`;
      if (part === null) return [];
      if (Array.isArray(part)) return part.length === 0 ? [] : [[key, part.map(listItem).join('; ')]];
      return typeof part === 'object' ? Object.entries(plain(part, `${key}.`)) : [[key, wordOf(part)]];
    }),
  );
}

const wordOf = (value: unknown): string => (typeof value === 'string' ? value : JSON.stringify(value));

const listItem = (item: unknown): string =>
  typeof item === 'object' && item !== null ? Object.values(item).map(wordOf).join(' ') : wordOf(item);
