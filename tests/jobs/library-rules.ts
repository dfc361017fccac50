/** What every job of the library must have; each rule returns what is wrong, in words, and nothing where all is well. */
import { provenanceOf, type Job, type Step, type StepLimits } from '../../lib/jobs/index.ts';
import { sources } from '../../lib/sources/index.ts';

const OUTSIDE = ['deck', 'foredeck', 'aloft', 'overside'];
const SOURCE_ID = /\b[A-Z][A-Z0-9]*(?:_[A-Z0-9]+)+\b/g;

/** Steps in which a sail comes down or goes up; those on the foredeck are known by their place. */
const SAIL_MOVES = ['drop-main/lower', 'drop-main/tame', 'hoist-main/hoist', 'unreef/hoist', 'trysail/hoist'];

type Rule = (job: Job) => readonly string[];

const ofSteps =
  (rule: (step: Step, job: Job) => readonly string[]): Rule =>
  (job) =>
    job.steps.flatMap((step) => rule(step, job).map((what) => `${job.id}/${step.id}: ${what}`));

const isRising = (values: readonly number[]): boolean =>
  values.every((value, index) => index === 0 || (values[index - 1] ?? 0) <= value);

export const clipFindings = ofSteps((step) =>
  OUTSIDE.includes(step.place) && step.clipTo === null ? ['nothing says where the tether is clipped'] : [],
);

/** Our defaults: 2 nm aloft, 1 nm on the foredeck and while a sail comes down or goes up, none elsewhere. */
export const visibilityFindings = ofSteps((step, job) => {
  const isSailMove = step.place === 'foredeck' || SAIL_MOVES.includes(`${job.id}/${step.id}`);
  const wantedNm = step.place === 'aloft' ? 2 : isSailMove ? 1 : null;
  const isNm = step.limits.visibilityLeastNm;
  return isNm === wantedNm ? [] : [`visibility ${isNm} nm where ${wantedNm} nm is our default`];
});

export const limitFindings = ofSteps(({ limits, work }) => {
  const { deckWindKn, seaHeightM, deckGustNoGoKn } = limits;
  const falls = [deckWindKn, seaHeightM].some(
    (levels) => levels === null || !isRising([levels.ideal, levels.caution, levels.noGo]),
  );
  const isGustBelow = deckGustNoGoKn !== null && deckWindKn !== null && deckGustNoGoKn < deckWindKn.noGo;
  return [
    ...(falls ? ['wind or sea levels are missing or fall'] : []),
    ...(isGustBelow ? ['the gust no-go lies below that of the mean wind'] : []),
    ...(work.leastMin > 0 && isRising([work.leastMin, work.likelyMin, work.mostMin])
      ? []
      : ['minutes not above 0, or fall']),
  ];
});

export const turnBackFindings: Rule = (job) => {
  const isHardToStop = job.pointOfNoReturn !== null || job.steps.some(({ stop }) => stop === 'never');
  return isHardToStop && job.turnBack === null ? [`${job.id}: no turn-back plan`] : [];
};

export const wordFindings: Rule = (job) => [
  ...(job.cautions.length > 0 ? [] : [`${job.id}: no caution`]),
  ...(job.safePoints.length > 0 || job.steps.every(({ place }) => place === 'below' || place === 'cockpit')
    ? []
    : [`${job.id}: no safe point`]),
  ...ofSteps(({ instructions }) =>
    instructions.length >= 2 && instructions.length <= 6 ? [] : ['2 to 6 instructions'],
  )(job),
];

const limitKeys = (limits: StepLimits): readonly string[] => Object.keys(limits);

/** What a provenance may be of. */
const keysOf = (step: Step): readonly string[] => [...limitKeys(step.limits), ...Object.keys(step)];

const namedIds = (words: string): readonly string[] => [...words.matchAll(SOURCE_ID)].map(([id]) => id);

export const provenanceFindings: Rule = (job) => [
  ...ofSteps((step) =>
    keysOf(step)
      .filter((key) => provenanceOf(job, step.id, key) === null)
      .map((key) => `${key} is nobody’s`),
  )(job),
  ...Object.entries(job.provenance).flatMap(([key, words]) => [
    ...namedIds(words)
      .filter((id) => !(id in sources))
      .map((id) => `${job.id}: source ${id} of "${key}" is not in the bibliography`),
    ...(isOfSomething(job, key) ? [] : [`${job.id}: "${key}" has a provenance and is not there`]),
  ]),
];

const OF_JOB = ['cautions', 'makes', 'checksAfter', 'needsTools', 'turnBack', 'pointOfNoReturn', 'safePoints'];

function isOfSomething(job: Job, key: string): boolean {
  const [stepId, ofStep] = key.split('.');
  if (ofStep === undefined) return key === '*' || job.steps.some(({ id }) => id === key);
  const steps = stepId === '*' ? job.steps : job.steps.filter(({ id }) => id === stepId);
  return (stepId === '*' && OF_JOB.includes(ofStep)) || steps.some((step) => keysOf(step).includes(ofStep));
}

/** A cure or a drying goes by the air, or its provenance says why not. */
export const waitFindings = ofSteps((step, job) => {
  const wait = step.waitAfter;
  if (wait === null) return [];
  const goesByAir = wait.floorC !== null || wait.halvesPerC !== null;
  const isSaid = job.provenance[`${step.id}.waitAfter`] !== undefined;
  return [
    ...(isRising([wait.leastH, wait.likelyH, wait.mostH]) ? [] : ['the hours fall']),
    ...(wait.keptAtC === null ? [] : ['whether it is kept warm is the user’s choice']),
    ...(wait.kind === 'soak' || wait.kind === 'settle' || goesByAir || isSaid
      ? []
      : [`why does the ${wait.kind} not go by the air?`]),
  ];
});

/** First within a quarter of an hour, rising, and again at an hour. */
export const checkFindings: Rule = ({ id, checksAfter }) => {
  const afterMin = checksAfter.map((check) => check.afterMin);
  const isFine = isRising(afterMin) && (afterMin[0] ?? 99) <= 15 && afterMin.includes(60);
  return isFine ? [] : [`${id}: looks after ${afterMin.join(', ')} min`];
};

const texts = (job: Job): readonly string[] => [
  job.name,
  ...job.cautions,
  ...job.safePoints,
  ...[job.pointOfNoReturn, job.turnBack].flatMap((words) => (words === null ? [] : [words])),
  ...job.checksAfter.map(({ look }) => look),
  ...job.needsTools,
  ...job.makes.map(({ item }) => item),
  ...job.steps.flatMap((step) => [
    step.name,
    ...(step.clipTo === null ? [] : [step.clipTo]),
    ...step.instructions,
    ...step.limits.byEye,
    ...step.materials.map(({ item }) => item),
  ]),
];

/** A capital within a sentence is a name, and the library has none; units and C of °C are no names. */
export const nameFindings: Rule = (job) =>
  texts(job).flatMap((text) => {
    const names = [...text.matchAll(/(?<=[a-z,;0-9’'] )[A-Z][A-Za-z]+/g)].map(([name]) => name);
    const isForeign = /https?:|www\.|[@®™]/.test(text);
    return names.length > 0 || isForeign ? [`${job.id}: a name in "${text}"`] : [];
  });

/** Items counted in two units, or named in two ways. */
export function itemFindings(jobs: readonly Job[]): readonly string[] {
  const units = new Map<string, Set<string>>();
  const ways = new Map<string, Set<string>>();
  for (const { item, unit } of jobs.flatMap((job) => [...job.makes, ...job.steps.flatMap((step) => step.materials)])) {
    units.set(item, (units.get(item) ?? new Set<string>()).add(unit));
    const stem = item.toLowerCase().replaceAll('-', ' ').replace(/s$/, '');
    ways.set(stem, (ways.get(stem) ?? new Set<string>()).add(item));
  }
  const several = (of: ReadonlyMap<string, ReadonlySet<string>>): readonly string[] =>
    [...of].flatMap(([key, set]) => (set.size > 1 ? [`${key}: ${[...set].join(', ')}`] : []));
  return [...several(units), ...several(ways)];
}

/** Tools named in two ways, twice in a job, or counted as material as well. */
export function toolFindings(jobs: readonly Job[]): readonly string[] {
  const tools = [...new Set(jobs.flatMap((job) => job.needsTools))];
  const items = new Set(jobs.flatMap((job) => job.steps.flatMap((step) => step.materials.map(({ item }) => item))));
  const stem = (tool: string): string => tool.toLowerCase().replaceAll('-', ' ').replace(/s$/, '');
  return [
    ...tools.filter((tool) => tools.some((other) => other !== tool && stem(other) === stem(tool))),
    ...tools.filter((tool) => items.has(tool)),
    ...jobs
      .filter((job) => new Set(job.needsTools).size < job.needsTools.length)
      .map(({ id }) => `${id}: a tool twice`),
  ];
}
