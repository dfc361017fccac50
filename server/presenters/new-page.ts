import { DEFAULT_SAIL_STATES, WATERLINE_RANGE } from '../../lib/boat/index.ts';
import { JOB_LIBRARY } from '../../lib/jobs/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { sizeText } from '../../lib/units/index.ts';
import type { FieldView, GroupView } from './job-edit-page.ts';
import { groupWords } from './job-words.ts';
import { type ChainTicks, chainTicks } from './new-chains.ts';
import type { NewShown } from './new-shown.ts';
import { timeTexts } from './time-texts.ts';

/** The form of a passage of one's own. */
export interface NewPage {
  readonly token: string;
  /** What has to be put right, each leading to its input. */
  readonly wrong: readonly { readonly inputId: string; readonly text: string }[];
  /** Problems of no input, and of jobs, which are in many. */
  readonly problems: readonly Problem[];
  /** Said above the form that was refused; empty: nothing. */
  readonly note: string;
  readonly passage: readonly GroupView[];
  readonly gpx: FileInput;
  readonly track: readonly GroupView[];
  readonly forecast: FileInput;
  readonly hours: readonly GroupView[];
  readonly boat: readonly GroupView[];
  readonly chains: ChainTicks;
  readonly library: readonly LibraryTicks[];
  readonly sleep: readonly GroupView[];
}

/** An input for files; a browser never fills one again. */
export interface FileInput {
  readonly id: string;
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  readonly isSeveral: boolean;
  readonly accept: string;
  readonly problems: readonly Problem[];
}

export interface LibraryTicks {
  readonly title: string;
  readonly tickedCount: number;
  readonly group: GroupView;
}

interface Spec extends Partial<Pick<FieldView, 'kind' | 'unit' | 'options'>> {
  readonly hint?: string;
}

const option = (value: string, text: string) => ({ value, text });
const night = { kind: 'figure', unit: 'h', hint: 'Hours in the bunk. Empty: as long as is wanted (default).' } as const;

export function newPage(shown: NewShown): NewPage {
  const group = (name: string, label: string, spec: Spec = {}): GroupView => groupOf(shown, { name, label }, spec);
  const fileInput = (name: string, of: Pick<FileInput, 'label' | 'hint' | 'isSeveral' | 'accept'>): FileInput => ({
    ...of,
    id: idOf(name),
    name,
    problems: problemsAt(shown, name),
  });
  const page = {
    passage: [
      group('name', 'Name of the passage', { hint: 'Empty: “Passage of” and the day of departure (default).' }),
    ],
    gpx: fileInput('gpx', {
      label: 'Track as a GPX 1.1 file',
      hint: 'One route, or one recorded track. A file chosen here replaces the positions below.',
      isSeveral: false,
      accept: '.gpx,.xml,application/gpx+xml',
    }),
    track: [
      group('track', 'or positions, one a line', {
        kind: 'lines',
        hint:
          "The first is where the passage begins. Such as 36°18.0'S 178°06.0'E or -36.3, 178.1. Behind it, where wanted: " +
          '| great circle for the leg that ends there (default: rhumb line), and | its name.',
      }),
    ],
    forecast: fileInput('forecast', {
      label: 'GRIB files of the forecast',
      hint: 'Edition 1 or 2, one or several; the text of a digest too. Without one there is no plan yet: it can be got on the page Forecast afterwards.',
      isSeveral: true,
      accept: '',
    }),
    hours: hoursOf(shown, group),
    boat: boatOf(group),
    chains: chainTicks(shown),
    library: libraryOf(shown),
    sleep: [
      group('usualSleepLocal', 'Usual time of going to sleep', { hint: 'Ship’s time. Empty: 22:00 (default).' }),
      group('wantedSleepH', 'Sleep wanted in 24 hours', { kind: 'figure', unit: 'h', hint: 'Empty: 6 (default).' }),
      group('night1H', 'Slept in the last night before the departure', night),
      group('night2H', 'in the night before it', night),
      group('night3H', 'and before that', night),
    ],
  };
  return {
    token: shown.token,
    note: noteOf(shown),
    ...page,
    wrong: wrongOf(page),
    problems: shown.problems.flatMap(({ input, problem }) => (input === null || input === 'jobs' ? [problem] : [])),
  };
}

const idOf = (name: string): string => `new-${name}`;

const problemsAt = ({ problems }: NewShown, name: string): readonly Problem[] =>
  problems.flatMap(({ input, problem }) => (input === name ? [problem] : []));

function groupOf(
  shown: NewShown,
  {
    name,
    label,
    id = idOf(name),
    value = valueOf(shown, name),
  }: { name: string; label: string; id?: string; value?: string },
  { kind = 'line', unit = '', options = [], hint = '' }: Spec,
): GroupView {
  const problems = problemsAt(shown, name);
  const field: FieldView = { name, label, kind, unit, options, id, value, isWrong: problems.length > 0 };
  return { id: `${id}-group`, label, hint, isTable: false, library: null, keptNow: null, problems, fields: [field] };
}

function valueOf({ entered, trackText }: NewShown, name: string): string {
  if (name === 'track' && trackText !== null) return trackText;
  return (entered?.all(name) ?? []).filter((text) => text !== '').join('\n');
}

type Group = (name: string, label: string, spec?: Spec) => GroupView;

function hoursOf(shown: NewShown, group: Group): readonly GroupView[] {
  const times = timeTexts(0);
  const options = shown.stored.map(({ hash, fileName, sizeOctets, addedAtEpochMs }) =>
    option(hash, `${fileName}, ${sizeText(sizeOctets)}, came ${times.utc(addedAtEpochMs)}`),
  );
  const use = groupOf(
    shown,
    { name: 'use', label: 'Files that are here already', value: shown.used.join('\n') },
    { kind: 'choices', options, hint: 'Those ticked are planned with.' },
  );
  return [
    ...(options.length === 0 ? [] : [use]),
    group('departure', 'Departure', {
      kind: 'instant',
      hint: 'Empty: now, or the first hour of the forecast where it does not hold now (default).',
    }),
    group('zone', 'The departure is written in', {
      kind: 'choice',
      hint: 'Ship’s time is the whole hour nearest to the longitude where it begins.',
      options: [option('', 'ship’s time (default)'), option('utc', 'UTC')],
    }),
    group('clock', 'The clock', {
      kind: 'choice',
      options: [option('', 'runs (default)'), option('held', 'is held at the departure, to try an old forecast')],
    }),
  ];
}

const boatOf = (group: Group): readonly GroupView[] => [
  group('sailState', 'Set at the departure', {
    kind: 'choice',
    options: [
      option('', `${DEFAULT_SAIL_STATES[0]?.name ?? ''} (default)`),
      ...DEFAULT_SAIL_STATES.slice(1).map(({ id, name }) => option(id, name)),
    ],
  }),
  group('boatName', 'Name of the boat', { hint: 'Empty: The boat (default).' }),
  group('waterlineM', 'Length of her waterline', {
    kind: 'figure',
    unit: 'm',
    hint: `Her default speeds are those of an ordinary loaded cruiser of this length. Empty: ${WATERLINE_RANGE.usualM} (default).`,
  }),
  group('speeds', 'Her own speed table, full sail', {
    kind: 'lines',
    hint: 'CSV with the first line twa_deg,tws_kn,boat_speed_kn. Empty: default speeds, by the waterline. With less sail they are estimated from its area (default).',
  }),
  group('instrumentHeightM', 'Height of the wind instrument', {
    kind: 'figure',
    unit: 'm',
    hint: 'Above the water. Empty: 15 (default).',
  }),
];

/** The library by its groups, each with its own ticks of one name. */
function libraryOf(shown: NewShown): readonly LibraryTicks[] {
  const ticked = shown.entered?.all('jobs') ?? [];
  return Object.entries(groupWords).flatMap(([id, title]) => {
    const jobs = JOB_LIBRARY.filter((job) => job.group === id);
    if (jobs.length === 0) return [];
    const tickedCount = jobs.filter((job) => ticked.includes(job.id)).length;
    const options = jobs.map((job) => option(job.id, job.name));
    const group = groupOf(shown, { name: 'jobs', label: title, id: idOf(`jobs-${id}`) }, { kind: 'choices', options });
    // What is wrong with a job is said once, above the form.
    return [{ title, tickedCount, group: { ...group, problems: [] } }];
  });
}

function wrongOf(
  page: Pick<NewPage, 'passage' | 'gpx' | 'track' | 'forecast' | 'hours' | 'boat' | 'chains' | 'sleep'>,
) {
  const groups = [...page.passage, ...page.track, ...page.hours, ...page.boat, ...page.sleep];
  return [
    ...[page.gpx, page.forecast].flatMap(({ id, label, problems }) =>
      problems.map(({ what }) => ({ inputId: id, text: `${label}: ${what}` })),
    ),
    ...groups.flatMap(({ label, problems, fields: [input] }) =>
      problems.map(({ what }) => ({ inputId: input?.id ?? '', text: `${label}: ${what}` })),
    ),
    ...page.chains.problems.map(({ what }) => ({ inputId: page.chains.id, text: `Chains of jobs: ${what}` })),
  ];
}

function noteOf({ problems, used, trackText }: NewShown): string {
  if (problems.length === 0) return '';
  const count = problems.length === 1 ? 'one thing has' : `${problems.length} things have`;
  const files = used.length === 0 ? '' : ' Forecast files that came are kept, and ticked below.';
  const track = trackText === null ? '' : ' The track stands below as positions.';
  return `No passage was made: ${count} to be put right first. What you entered is kept.${files}${track}`;
}
