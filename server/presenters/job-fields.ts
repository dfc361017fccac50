import { type JobFile, JOB_DEFAULTS, type Job, type SessionRule } from '../../lib/jobs/index.ts';
import { STITCH_RATES } from '../../lib/stock/index.ts';
import {
  choiceGroup,
  choicesGroup,
  type FieldGroup,
  type FieldOption,
  figureGroup,
  figureOf,
  inputOf,
  lineGroup,
  linesGroup,
  linesOf,
  objectGroup,
} from './job-field.ts';
import { plainFigure } from './job-figures.ts';
import { limitGroups } from './job-limit-fields.ts';
import { groupWords, optionsOf, priorityText } from './job-words.ts';
import { shipTimeOf, utcOfShipTime } from './ship-time.ts';

/** What the inputs of a job choose among, and how its times are written. */
export interface FormSurroundings {
  /** The other jobs of the passage. */
  readonly jobs: readonly FieldOption[];
  readonly handlings: readonly FieldOption[];
  readonly sailStates: readonly FieldOption[];
  readonly shipTimeOffsetMin: number;
}

/** Inputs of a whole job, in the parts the form shows them in. */
export interface JobGroups {
  readonly what: readonly FieldGroup[];
  readonly order: readonly FieldGroup[];
  readonly boat: readonly FieldGroup[];
  /** Empty where it sews nothing. */
  readonly seam: readonly FieldGroup[];
  /** For every step at once. */
  readonly session: readonly FieldGroup[];
  readonly limits: readonly FieldGroup[];
  readonly words: readonly FieldGroup[];
}

/** @param entry what the passage file says of it */
export function jobGroups(job: Job, entry: JobFile, around: FormSurroundings): JobGroups {
  return {
    what: [
      lineGroup(place('name', 'Name'), job.name),
      choiceGroup(place('priority', 'Priority'), String(job.priorityWeight), PRIORITIES, (text) =>
        entry.priority === undefined && text === String(JOB_DEFAULTS.priorityWeight) ? undefined : figureOf(text),
      ),
      choiceGroup(place('group', 'About'), job.group, optionsOf(groupWords)),
    ],
    order: orderGroups(job, entry, around),
    boat: [
      handlingGroup(job, around.handlings),
      choicesGroup(
        { ...place('sailStates', 'Worked with'), hint: 'None ticked: whatever sail is set.' },
        job.sailStates,
        around.sailStates,
      ),
    ],
    seam: seamGroups(job),
    session: sessionGroups(entry),
    limits: limitGroups({ prefix: 'limits.', stepId: null, limits: entry.limits ?? {}, isNew: false }),
    words: [
      linesGroup(place('cautions', 'Cautions, one a line'), job.cautions),
      linesGroup(place('safePoints', 'States she may be left in for hours, one a line'), job.safePoints),
      lineGroup(place('pointOfNoReturn', 'Point of no return'), job.pointOfNoReturn ?? '', null),
      lineGroup(place('turnBack', 'To turn back'), job.turnBack ?? '', null),
      linesGroup(place('needsTools', 'Tools it is worked with, one a line'), job.needsTools),
      linesGroup(
        {
          ...place('tools', 'Tools it keeps until its waits are over, one a line'),
          hint: 'Clamps on a glued joint, for one.',
        },
        entry.tools ?? [],
      ),
    ],
  };
}

export const allJobGroups = (groups: JobGroups): readonly FieldGroup[] => [
  ...groups.what,
  ...groups.order,
  ...groups.boat,
  ...groups.seam,
  ...groups.session,
  ...groups.limits,
  ...groups.words,
];

const place = (key: string, label: string): { name: string; label: string; keys: readonly string[] } => ({
  name: key,
  label,
  keys: [key],
});

const PRIORITIES: readonly FieldOption[] = Array.from({ length: 9 }, (_, index) => ({
  value: String(index + 1),
  text: priorityText(index + 1),
}));

function orderGroups(job: Job, entry: JobFile, around: FormSurroundings): readonly FieldGroup[] {
  const steps = job.steps.map(({ id, name }) => ({ value: id, text: name }));
  const instant = (key: 'notBeforeUtc' | 'finishByUtc' | 'startUtc', label: string): FieldGroup =>
    instantGroup({ key, label, utc: entry[key] }, around.shipTimeOffsetMin);
  return [
    choicesGroup(
      { ...place('after', 'Comes after'), hint: 'It starts when these are finished, waits included.' },
      job.after,
      around.jobs,
    ),
    instant('notBeforeUtc', 'Not before'),
    instant('finishByUtc', 'Finished by'),
    {
      ...instant('startUtc', 'Starts exactly at'),
      hint: 'Locks it to this start: it is planned then, or not at all. Empty: the plan chooses.',
    },
    choiceGroup(place('lockHandling', 'Worked only under'), entry.lockHandling ?? '', [
      { value: '', text: 'the handling the plan chooses' },
      ...around.handlings.filter(({ value }) => job.handlings.includes(value)),
    ]),
    choicesGroup(
      place('done', 'Done'),
      entry.done === true ? ['true'] : [],
      [{ value: 'true', text: 'all of it' }],
      (values) => (values.length > 0 ? true : undefined),
    ),
    choicesGroup(
      { ...place('doneSteps', 'Finished steps'), hint: 'From the first on.' },
      entry.doneSteps ?? [],
      steps,
      (values) => (values.length > 0 ? values : undefined),
    ),
    figureGroup(
      { ...place('doneMin', 'Worked already of the step begun'), unit: 'min' },
      entry.doneMin === undefined ? '' : plainFigure(entry.doneMin),
    ),
  ];
}

/** A time on the ship's clock; the file holds UTC. */
function instantGroup(
  { key, label, utc }: { key: string; label: string; utc: string | undefined },
  shipTimeOffsetMin: number,
): FieldGroup {
  const shown = utc === undefined ? '' : shipTimeOf(utc, shipTimeOffsetMin);
  const at0 = { ...place(key, label), hint: 'Ship’s time.' };
  return {
    ...lineGroup(at0, shown),
    fields: [inputOf(at0, 'instant')],
    valueOf: ([text = '']) => (text === '' ? undefined : utcOfShipTime(text, shipTimeOffsetMin)),
  };
}

/** Preferred first: the one, and then the others. */
function handlingGroup(job: Job, handlings: readonly FieldOption[]): FieldGroup {
  const [preferred = '', ...others] = job.handlings;
  const parts = [
    { key: '', spec: inputOf({ name: 'handlings.first', label: 'preferred' }, 'choice', handlings), shown: preferred },
    {
      key: '',
      spec: inputOf({ name: 'handlings', label: 'allowed besides' }, 'choices', handlings),
      shown: handlings
        .map(({ value }) => value)
        .filter((id) => others.includes(id))
        .join('\n'),
    },
  ];
  const valueOf = ([first = '', rest = '']: readonly string[]): unknown => {
    const allowed = linesOf(rest).filter((id) => id !== first);
    return [first, ...others.filter((id) => allowed.includes(id)), ...allowed.filter((id) => !others.includes(id))];
  };
  const group = objectGroup({ label: 'What the boat does meanwhile', keys: ['handlings'] }, parts, valueOf);
  return { ...group, partKeys: [null, null] };
}

function seamGroups({ seam }: Job): readonly FieldGroup[] {
  if (seam === null) return [];
  const cloths = STITCH_RATES.map(({ cloth, name, slowMPerH, fastMPerH }) => ({
    value: cloth,
    text: `${name}, ${slowMPerH}–${fastMPerH} m an hour and row`,
  }));
  const hint = 'Minutes, twine and needles of the sewing follow from it.';
  return [
    figureGroup({ ...place('lengthM', 'Length of the seam'), unit: 'm', hint }, plainFigure(seam.lengthM)),
    figureGroup({ ...place('rows', 'Rows of stitches') }, plainFigure(seam.rowCount)),
    choiceGroup(place('cloth', 'Cloth'), seam.cloth, cloths),
  ];
}

const SESSION: readonly (readonly [keyof SessionRule, string])[] = [
  ['longestMin', 'Longest session'],
  ['restMin', 'Rest between sessions'],
  ['leastUsefulMin', 'Shortest session that is worth it'],
  ['resumeMin', 'To take the work up again'],
  ['makeSafeMin', 'To make it safe'],
];

const sessionGroups = ({ session }: JobFile): readonly FieldGroup[] =>
  SESSION.map(([key, label]) => {
    const own = session?.[key];
    return figureGroup(
      { name: `session.${key}`, label, keys: ['session', key], unit: 'min' },
      own === undefined ? '' : plainFigure(own),
    );
  });
