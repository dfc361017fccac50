import { ok, okUnless, type Problem, type Result } from '../result/index.ts';
import { needleCount, needleMinutes, STITCH_RATES, twineM, type Seam } from '../stock/index.ts';
import type { Job, MaterialNeed, Step } from './job.ts';
import type { JobFile } from './job-file.ts';
import type { LibraryJob } from './library-job.ts';
import { libraryJob, libraryJobIds } from './library.ts';
import { makeStep, withLimits, withSession } from './make-step.ts';
import { missing, unknownName } from './unknown-name.ts';

const DEFAULT_PRIORITY = 5;
const DEFAULT_CLOTH = 'tough-laminate';

/** What a job is where neither the file nor the library says otherwise. */
const OWN_JOB: Omit<LibraryJob, 'id' | 'name'> = {
  seamStepId: null,
  sailStates: [],
  handlings: ['hold-course'],
  steps: [],
  cautions: [],
  pointOfNoReturn: null,
  provenance: 'own figures',
};

/**
 * A job from its entry in a passage file, library figures filled in.
 *
 * References to other jobs, handlings and sail states are not checked here.
 *
 * @param where path of the entry, named in the problems
 * @returns the job, or `jobs.library-unknown`, `jobs.no-steps`, `jobs.no-name`, `jobs.step-incomplete`,
 *   `jobs.step-twice`, `jobs.step-unknown`, `jobs.no-seam`, `jobs.cloth-unknown`
 */
export function makeJob(file: JobFile, where: string): Result<Job> {
  const library = file.from === undefined ? null : libraryJob(file.from);
  const seam = seamOf(file, library, where);
  const steps = stepsOf(file, library, where);
  const name = file.name ?? library?.name;
  const problems = [
    ...libraryProblems(file, library, where),
    ...(name === undefined && file.from === undefined
      ? [missing('jobs.no-name', `${where}.name`, 'a name, as the job is not from the library')]
      : []),
    ...(seam.ok ? [] : seam.problems),
    ...(steps.ok ? stepIdProblems(file, steps.value, where) : steps.problems),
  ];
  return okUnless(problems, () => {
    if (!seam.ok || !steps.ok || name === undefined) throw new Error('a problem was lost');
    const { seamStepId, ...base } = library ?? OWN_JOB;
    return {
      ...base,
      ...ownWords(file),
      id: file.id,
      name,
      from: file.from ?? null,
      priorityWeight: file.priority ?? DEFAULT_PRIORITY,
      after: file.after ?? [],
      seam: seamStepId === null || seam.value === null ? null : { stepId: seamStepId, rowCount: seam.value.rowCount },
      steps: steps.value.map((step) => withOverrides(step, file, step.id === seamStepId ? seam.value : null)),
    };
  });
}

function libraryProblems(file: JobFile, library: LibraryJob | null, where: string): readonly Problem[] {
  if (file.from === undefined || library !== null) return [];
  const of = { code: 'jobs.library-unknown', kind: 'library job', name: file.from, known: libraryJobIds };
  return [unknownName(of, `${where}.from`)];
}

/** What a file may say in the library's place as it stands. */
const ownWords = (file: JobFile): Partial<Pick<Job, 'sailStates' | 'handlings' | 'cautions' | 'pointOfNoReturn'>> => ({
  ...(file.sailStates === undefined ? {} : { sailStates: file.sailStates }),
  ...(file.handlings === undefined ? {} : { handlings: file.handlings }),
  ...(file.cautions === undefined ? {} : { cautions: file.cautions }),
  ...(file.pointOfNoReturn === undefined ? {} : { pointOfNoReturn: file.pointOfNoReturn }),
});

function stepsOf(file: JobFile, library: LibraryJob | null, where: string): Result<readonly Step[]> {
  if (file.steps === undefined) {
    const isOwn = library === null && file.from === undefined;
    const problems = isOwn ? [missing('jobs.no-steps', `${where}.steps`, 'steps, or "from" with a library job')] : [];
    return okUnless(problems, () => library?.steps ?? []);
  }
  const made = file.steps.map((step, index) => {
    const base = library?.steps.find((candidate) => candidate.id === step.id) ?? null;
    return makeStep(step, base, `${where}.steps[${index}]`);
  });
  return okUnless(
    made.flatMap((step) => (step.ok ? [] : step.problems)),
    () => made.flatMap((step) => (step.ok ? [step.value] : [])),
  );
}

/** Figures the file gives for the whole job; minutes of the file come before those of the seam. */
function withOverrides(step: Step, file: JobFile, seam: Seam | null): Step {
  const isOwnWork = file.steps?.some((own) => own.id === step.id && own.work !== undefined) ?? false;
  const seamWork = seam === null || isOwnWork ? step.work : needleMinutes(seam);
  const { session } = file;
  return {
    ...step,
    work: file.minutes?.[step.id] ?? seamWork,
    limits: withLimits(step.limits, file.limits),
    session: session === undefined || step.stop !== 'anywhere' ? step.session : withSession(step.session, session),
    materials: seam === null ? step.materials : [...seamMaterials(seam), ...step.materials],
  };
}

const seamMaterials = (seam: Seam): readonly MaterialNeed[] => [
  { item: 'waxed twine', amount: Math.round(twineM(seam) * 10) / 10, unit: 'm' },
  { item: 'needles', amount: needleCount(seam), unit: 'pieces' },
];

/** The seam of a job whose library job has one: 1 m, one row, tough laminate unless the file says otherwise. */
function seamOf(file: JobFile, library: LibraryJob | null, where: string): Result<Seam | null> {
  const given = (['lengthM', 'rows', 'cloth'] as const).filter((key) => file[key] !== undefined);
  if (library === null || library.seamStepId === null) {
    const isUnknown = library === null && file.from !== undefined;
    return okUnless(isUnknown ? [] : given.map((key) => noSeam(file, `${where}.${key}`)), () => null);
  }
  const cloth = file.cloth ?? DEFAULT_CLOTH;
  const known = STITCH_RATES.map((rate) => rate.cloth);
  if (known.includes(cloth)) return ok({ lengthM: file.lengthM ?? 1, rowCount: file.rows ?? 1, cloth });
  const of = { code: 'jobs.cloth-unknown', kind: 'cloth', name: cloth, known };
  return { ok: false, problems: [unknownName(of, `${where}.cloth`)] };
}

function stepIdProblems(file: JobFile, steps: readonly Step[], where: string): readonly Problem[] {
  const known = steps.map((step) => step.id);
  const twice = known.filter((id, index) => known.indexOf(id) < index);
  const strange = steps.length === 0 ? [] : Object.keys(file.minutes ?? {}).filter((id) => !known.includes(id));
  return [
    ...twice.map((id) => ({
      code: 'jobs.step-twice',
      where: `${where}.steps`,
      what: `Two steps have the id "${id}".`,
      expected: 'one id for each step of a job',
      remedy: 'Rename one of them.',
    })),
    ...strange.map((name) =>
      unknownName({ code: 'jobs.step-unknown', kind: 'step', name, known }, `${where}.minutes.${name}`),
    ),
  ];
}

const noSeam = (file: JobFile, where: string): Problem => ({
  code: 'jobs.no-seam',
  where,
  what: file.from === undefined ? 'An own job has no seam.' : `The library job "${file.from}" has no seam.`,
  expected: 'a seam only on jobs that are sewn, such as stitch-tear',
  remedy: 'Take it out, and give the minutes instead.',
});
