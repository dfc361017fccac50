import { okUnless, type Problem, type Result } from '../result/index.ts';
import { needleMinutes } from '../stock/index.ts';
import { JOB_DEFAULTS } from './defaults.ts';
import type { Job, JobSeam, Step } from './job.ts';
import type { JobFile } from './job-file.ts';
import { saysSeam, seamOf, withSeamMaterials } from './job-seam.ts';
import { makeStep, minutesAtRate, withLimits, withSession } from './make-step.ts';
import { withOwn } from './own-provenance.ts';
import { missing, unknownName } from './unknown-name.ts';

/** Job of the library by its id, or null; and all ids there are. */
export interface JobLibrary {
  readonly ids: readonly string[];
  readonly find: (id: string) => Job | null;
}

/**
 * A job from its entry in a file, figures of the library filled in.
 *
 * References to other jobs, handlings and sail states are not checked here.
 *
 * @param where path of the entry, named in the problems
 * @returns the job, or `jobs.library-unknown`, `jobs.no-steps`, `jobs.no-name`, `jobs.step-incomplete`,
 *   `jobs.work-twice`, `jobs.step-twice`, `jobs.step-unknown`, `jobs.no-rate`, `jobs.no-wait`,
 *   `jobs.hours-order`, `jobs.no-seam`, `jobs.cloth-unknown`
 */
export function jobOver(library: JobLibrary, file: JobFile, where: string): Result<Job> {
  const base = file.from === undefined ? null : library.find(file.from);
  const seam = seamOf(file, base, where);
  const steps = stepsOf(file, base, where);
  const name = file.name ?? base?.name;
  const problems = [
    ...libraryProblems(library, file, base, where),
    ...(name === undefined && file.from === undefined
      ? [missing('jobs.no-name', `${where}.name`, 'a name, as the job is not from the library')]
      : []),
    ...(seam.ok ? [] : seam.problems),
    ...(steps.ok ? stepIdProblems(file, steps.value, where) : steps.problems),
  ];
  return okUnless(problems, () => {
    if (!seam.ok || !steps.ok || name === undefined) throw new Error('a problem was lost');
    const made = { ...(base ?? JOB_DEFAULTS), ...ownWords(file), id: file.id, name, from: file.from ?? null };
    const changed = steps.value.map((step) => withOverrides(step, file, seam.value));
    const provenance = base === null ? made.provenance : withOwn(base, file, { steps: changed, seam: seam.value });
    return { ...made, seam: seam.value, steps: changed, provenance };
  });
}

function libraryProblems(library: JobLibrary, file: JobFile, base: Job | null, where: string): readonly Problem[] {
  if (file.from === undefined || base !== null) return [];
  const of = { code: 'jobs.library-unknown', kind: 'library job', name: file.from, known: library.ids };
  return [unknownName(of, `${where}.from`)];
}

/** What a file may say in the library's place as it stands. */
function ownWords(file: JobFile): Partial<Job> {
  const { group, after, sailStates, handlings, cautions, pointOfNoReturn, safePoints, turnBack } = file;
  const { checksAfter, startEarly, goesWith, makes, needsTools, provenance, priority: priorityWeight } = file;
  const words = {
    group,
    priorityWeight,
    after,
    sailStates,
    handlings,
    cautions,
    pointOfNoReturn,
    safePoints,
    turnBack,
  };
  const more = { checksAfter, startEarly, goesWith, makes, needsTools, provenance };
  return Object.fromEntries(Object.entries({ ...words, ...more }).filter(([, value]) => value !== undefined));
}

function stepsOf(file: JobFile, base: Job | null, where: string): Result<readonly Step[]> {
  if (file.steps === undefined) {
    const isOwn = base === null && file.from === undefined;
    const problems = isOwn ? [missing('jobs.no-steps', `${where}.steps`, 'steps, or "from" with a library job')] : [];
    return okUnless(problems, () => base?.steps ?? []);
  }
  const made = file.steps.map((step, index) => {
    const under = base?.steps.find((candidate) => candidate.id === step.id) ?? null;
    return makeStep(step, under, `${where}.steps[${index}]`);
  });
  return okUnless(
    made.flatMap((step) => (step.ok ? [] : step.problems)),
    () => made.flatMap((step) => (step.ok ? [step.value] : [])),
  );
}

/** Figures the file gives for the whole job; minutes of the file come before those of the seam and of rates. */
function withOverrides(step: Step, file: JobFile, seam: JobSeam | null): Step {
  const { session } = file;
  return {
    ...step,
    ...workOf(step, file, seam),
    waitAfter: step.waitAfter && { ...step.waitAfter, ...file.waits?.[step.id] },
    limits: withLimits(step.limits, file.limits),
    session: session === undefined || step.stop !== 'anywhere' ? step.session : withSession(step.session, session),
    materials: seam?.stepId === step.id ? withSeamMaterials(step.materials, seam, file) : step.materials,
  };
}

function workOf(step: Step, file: JobFile, seam: JobSeam | null): Pick<Step, 'work' | 'rate'> {
  const amount = file.amounts?.[step.id];
  const rate = step.rate === null || amount === undefined ? step.rate : { ...step.rate, amount };
  const own = file.minutes?.[step.id] ?? file.steps?.find(({ id }) => id === step.id)?.work;
  if (own !== undefined) return { rate, work: own };
  if (seam?.stepId === step.id && saysSeam(file)) return { rate, work: needleMinutes(seam) };
  return { rate, work: rate === null || amount === undefined ? step.work : minutesAtRate(rate) };
}

function stepIdProblems(file: JobFile, steps: readonly Step[], where: string): readonly Problem[] {
  const known = steps.map((step) => step.id);
  const twice = known.filter((id, index) => known.indexOf(id) < index);
  const unknown = (name: string, place: string) =>
    steps.length === 0 || known.includes(name)
      ? []
      : [unknownName({ code: 'jobs.step-unknown', kind: 'step', name, known }, place)];
  return [
    ...twice.map((id) => ({
      code: 'jobs.step-twice',
      where: `${where}.steps`,
      what: `Two steps have the id "${id}".`,
      expected: 'one id for each step of a job',
      remedy: 'Rename one of them.',
    })),
    ...Object.keys(file.minutes ?? {}).flatMap((name) => unknown(name, `${where}.minutes.${name}`)),
    ...Object.keys(file.amounts ?? {}).flatMap((name) => unknown(name, `${where}.amounts.${name}`)),
    ...Object.keys(file.waits ?? {}).flatMap((name) => unknown(name, `${where}.waits.${name}`)),
    ...steps.flatMap((step) => waitProblems(step, file, `${where}.waits.${step.id}`)),
    ...(typeof file.seamStep === 'string' ? unknown(file.seamStep, `${where}.seamStep`) : []),
    ...Object.keys(file.amounts ?? {}).flatMap((name) =>
      steps.some(({ id, rate }) => id === name && rate === null) ? [noRate(name, `${where}.amounts.${name}`)] : [],
    ),
  ];
}

/** A wait of one's own needs one to change, and hours that still rise. */
function waitProblems({ id, waitAfter }: Step, { waits }: JobFile, where: string): readonly Problem[] {
  const own = waits?.[id];
  if (own === undefined) return [];
  const said = { where, remedy: 'Correct it, or give the whole wait with the step, as "waitAfter".' };
  if (waitAfter === null)
    return [
      {
        ...said,
        code: 'jobs.no-wait',
        what: `Nothing waits after the step "${id}".`,
        expected: 'the id of a step with a wait',
      },
    ];
  const { leastH, likelyH, mostH } = { ...waitAfter, ...own };
  if (leastH <= likelyH && likelyH <= mostH) return [];
  return [
    {
      ...said,
      code: 'jobs.hours-order',
      what: `The hours of the wait do not rise: ${leastH}, ${likelyH}, ${mostH}.`,
      expected: 'hours that rise: least, then likely, then most',
    },
  ];
}

const noRate = (stepId: string, where: string): Problem => ({
  code: 'jobs.no-rate',
  where,
  what: `The step "${stepId}" has no rate, so an amount says nothing about its minutes.`,
  expected: 'the id of a step with a rate',
  remedy: 'Give its minutes instead, under "minutes".',
});
