import { type Job, type JobFile, libraryJob, makeJob } from '../../lib/jobs/index.ts';
import { type Path, pathText, valueAt, withValueAt } from './entry-editor.ts';

/** Something an entry says in the library's place, that can be given back to the library by itself. */
export interface OwnFigure {
  /** Place in the entry: `limits.daylight`, `minutes.sew`; `steps`: which steps there are, and their order. */
  readonly place: string;
  /** Step it is about; null: the whole job, or every step of it. */
  readonly stepId: string | null;
  /** Key of the job or the step, without the step. */
  readonly keys: readonly string[];
  readonly own: unknown;
  /** What the library says; of a figure for every step at once, each different value once. */
  readonly library: readonly unknown[];
}

interface Unit {
  readonly path: Path;
  readonly stepId: string | null;
  readonly keys: readonly string[];
}

/**
 * What in an entry is not as in the library job it is made from. Empty too for a job of the user's own, all of which is.
 *
 * @param job made from the entry
 */
export function ownFigures(entry: JobFile, job: Job): readonly OwnFigure[] {
  const library = libraryOf(entry);
  if (library === null) return [];
  const figures = unitsOf(entry).flatMap((unit): OwnFigure[] => {
    const pairs = pairsOf(unit, { entry, job, library });
    if (!pairs.some(({ own, library: of }) => JSON.stringify(own) !== JSON.stringify(of))) return [];
    const { stepId, keys, path } = unit;
    return [
      {
        place: pathText(path),
        stepId,
        keys,
        own: valueAt(entry, path),
        library: distinct(pairs.map((pair) => pair.library)),
      },
    ];
  });
  return [...figures, ...stepsFigure(entry, library, job)];
}

const libraryOf = ({ from }: JobFile): Job | null => (from === undefined ? null : libraryJob(from));

/** The entry with one of its own figures given back to the library; all of them without a place. */
export function givenBack(entry: JobFile, place: string | null): unknown {
  const library = libraryOf(entry);
  if (library === null) return entry;
  const units = unitsOf(entry).filter(({ path }) => place === null || pathText(path) === place);
  const after = units.reduce<unknown>((rest, { path }) => withValueAt(rest, path, undefined), entry);
  return withPlainSteps(place === null || place === 'steps' ? withLibrarySteps(after, library) : after, library);
}

/** Keys of an entry that the library says for a job that leaves them out. */
const OF_THE_JOB: readonly (keyof JobFile)[] = [
  'name',
  'group',
  'sailStates',
  'handlings',
  'lengthM',
  'rows',
  'cloth',
  'seamStep',
  'cautions',
  'pointOfNoReturn',
  'safePoints',
  'turnBack',
  'checksAfter',
  'startEarly',
  'goesWith',
  'makes',
  'needsTools',
];

const keysOf = (value: unknown): readonly string[] =>
  typeof value === 'object' && value !== null ? Object.keys(value) : [];

function unitsOf(entry: JobFile): readonly Unit[] {
  const under = (key: 'limits' | 'session'): readonly Unit[] =>
    keysOf(entry[key]).map((name) => ({ path: [key, name], stepId: null, keys: [key, name] }));
  const beside = (key: 'minutes' | 'amounts' | 'waits', keys: readonly string[]): readonly Unit[] =>
    keysOf(entry[key]).map((stepId) => ({ path: [key, stepId], stepId, keys }));
  return [
    ...OF_THE_JOB.filter((key) => entry[key] !== undefined).map((key) => ({ path: [key], stepId: null, keys: [key] })),
    ...under('limits'),
    ...under('session'),
    ...beside('minutes', ['work']),
    ...beside('amounts', ['rate', 'amount']),
    ...beside('waits', ['waitAfter']),
    ...(entry.steps ?? []).flatMap((step, index) => unitsOfStep(step, index)),
  ];
}

const unitsOfStep = (step: NonNullable<JobFile['steps']>[number], index: number): readonly Unit[] =>
  Object.keys(step)
    .filter((key) => key !== 'id')
    .flatMap((key) =>
      key === 'limits' || key === 'session'
        ? keysOf(step[key]).map((name): Unit => ({
            path: ['steps', index, key, name],
            stepId: step.id,
            keys: [key, name],
          }))
        : [{ path: ['steps', index, key], stepId: step.id, keys: [key] }],
    );

interface Compared {
  readonly entry: JobFile;
  readonly job: Job;
  readonly library: Job;
}

/** What a unit makes of the job, beside what the library has there; for every step both have, where it is for them all. */
function pairsOf(
  { path, stepId, keys }: Unit,
  { entry, job, library }: Compared,
): readonly { readonly own: unknown; readonly library: unknown }[] {
  const [first = ''] = keys;
  const isOfSteps = stepId !== null || first === 'limits' || first === 'session';
  if (!isOfSteps) return [{ own: valueAt(job, jobKeys(first)), library: valueAt(library, jobKeys(first)) }];
  return job.steps.flatMap((step) => {
    const of = library.steps.find(({ id }) => id === step.id);
    if (of === undefined || (stepId !== null && stepId !== step.id)) return [];
    // Only work that can be stopped anywhere has sessions.
    if (first === 'session' && step.stop !== 'anywhere') return [];
    const isInEntry = first === 'limits' || first === 'session';
    return [{ own: isInEntry ? valueAt(entry, path) : valueAt(step, keys), library: valueAt(of, keys) }];
  });
}

const SEAM_KEYS: Readonly<Record<string, string>> = {
  lengthM: 'lengthM',
  rows: 'rowCount',
  cloth: 'cloth',
  seamStep: 'stepId',
};

function jobKeys(key: string): Path {
  const seamKey = SEAM_KEYS[key];
  return seamKey === undefined ? [key] : ['seam', seamKey];
}

const distinct = (values: readonly unknown[]): readonly unknown[] =>
  values.filter((value, index) => values.findIndex((one) => JSON.stringify(one) === JSON.stringify(value)) === index);

/** Steps left out, added or moved. */
function stepsFigure({ steps }: JobFile, library: Job, job: Job): readonly OwnFigure[] {
  const idsOf = (of: Job): readonly string[] => of.steps.map(({ id }) => id);
  if (steps === undefined || idsOf(job).join() === idsOf(library).join()) return [];
  const names = ({ steps: all }: Job): readonly string[] => all.map(({ name }) => name);
  return [{ place: 'steps', stepId: null, keys: ['steps'], own: names(job), library: [names(library)] }];
}

/** The library's steps in its order, each with what the entry says of it. */
function withLibrarySteps(raw: unknown, library: Job): unknown {
  const given = valueAt(raw, ['steps']);
  if (!Array.isArray(given)) return raw;
  const steps: readonly unknown[] = given;
  const idOf = (step: unknown): unknown => valueAt(step, ['id']);
  const known = library.steps.map(({ id }) => id);
  const after = known.map((id) => steps.find((step) => idOf(step) === id) ?? { id });
  const lost = steps.map(idOf).filter((id): id is string => typeof id === 'string' && !known.includes(id));
  const beside = lost.flatMap((id) => ['minutes', 'amounts', 'waits'].map((key): Path => [key, id]));
  return beside.reduce((rest, path) => withValueAt(rest, path, undefined), withValueAt(raw, ['steps'], after));
}

/** Steps of which nothing more is said need not be named. */
export function withPlainSteps(raw: unknown, library: Job | null): unknown {
  const steps = valueAt(raw, ['steps']);
  if (library === null || !Array.isArray(steps)) return raw;
  const isPlain = steps.every((step: unknown) => keysOf(step).length === 1);
  const ids = steps.map((step: unknown) => valueAt(step, ['id']));
  return isPlain && ids.join() === library.steps.map(({ id }) => id).join()
    ? withValueAt(raw, ['steps'], undefined)
    : raw;
}

/** The job an entry makes; it throws where it makes none, for it was checked. */
export function jobOf(entry: JobFile): Job {
  const made = makeJob(entry, entry.id);
  if (!made.ok) throw new Error(made.problems[0].what);
  return made.value;
}
