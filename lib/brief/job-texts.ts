/** Jobs in words, for terminals. */
import {
  durationQuantiles,
  pertDuration,
  provenanceOf,
  sumDuration,
  waitP80H,
  type Difference,
  type Job,
  type Proposal,
  type Step,
  type StepLimits,
} from '../jobs/index.ts';

/** One line for each job: id, name, minutes that half and nine tenths of tries stay within, strictest limits. */
export function jobListText(jobs: readonly Job[]): string {
  const rows = jobs.map((job) => {
    const { p50Min, p90Min } = totalMinutes(job);
    return [
      job.id,
      job.group,
      `${Math.round(p50Min)}`,
      `${Math.round(p90Min)}`,
      strictest(job, 'deckWindKn'),
      strictest(job, 'seaHeightM'),
      job.name,
    ];
  });
  const head = ['job', 'about', 'P50 min', 'P90 min', 'wind kn', 'sea m', 'what'];
  return `${tableText([head, ...rows], new Set([2, 3, 4, 5]))}\n`;
}

/** Minutes of all steps one after the other, phases correlated 0.5; waits are not among them. */
export const totalMinutes = ({ steps }: Job): ReturnType<typeof durationQuantiles> =>
  durationQuantiles(sumDuration(steps.map(({ work }) => pertDuration(work))));

function strictest({ steps }: Job, key: 'deckWindKn' | 'seaHeightM'): string {
  const noGo = steps.flatMap(({ limits }) => limits[key]?.noGo ?? []);
  return noGo.length === 0 ? '' : `${Math.min(...noGo)}`;
}

/** Rows of cells in columns; columns named are set right. */
function tableText(rows: readonly (readonly string[])[], right: ReadonlySet<number>): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const cell = (text: string, columnIndex: number): string =>
    right.has(columnIndex) ? text.padStart(widths[columnIndex] ?? 0) : text.padEnd(widths[columnIndex] ?? 0);
  return rows.map((row) => row.map(cell).join('  ').trimEnd()).join('\n');
}

/** The whole card of a job: steps, limits, waits, what it needs, what to look at, and whose figures they are. */
export function jobCardText(job: Job): string {
  const { p50Min, p80Min, p90Min } = totalMinutes(job);
  return [
    `${job.name} (${job.id}${job.from === null || job.from === job.id ? '' : `, from ${job.from}`}; ${job.group})`,
    `  Work ${Math.round(p50Min)} min; four of five tries within ${Math.round(p80Min)}, nine of ten within ${Math.round(p90Min)}. Waits are not among them.`,
    `  Sails: ${job.sailStates.length === 0 ? 'any' : job.sailStates.join(', ')}. Handlings, preferred first: ${job.handlings.join(', ')}.`,
    ...(job.seam === null ? [] : [`  Seam: ${job.seam.lengthM} m, ${job.seam.rowCount} row(s), ${job.seam.cloth}.`]),
    ...job.steps.flatMap((step, index) => stepLines(job, step, index)),
    ...lines('Safe points', job.safePoints),
    ...(job.pointOfNoReturn === null ? [] : [`  No return: ${job.pointOfNoReturn}`]),
    ...(job.turnBack === null ? [] : [`  To turn back: ${job.turnBack}`]),
    ...lines('Cautions', job.cautions),
    ...lines('Tools', job.needsTools),
    ...lines(
      'Makes',
      job.makes.map(({ item, amount, unit }) => `${amount} ${unit} ${item}`),
    ),
    ...lines(
      'Afterwards',
      job.checksAfter.map(({ afterMin, look }) => `after ${afterMin} min: ${look}`),
    ),
    ...lines('Start early', job.startEarly),
    ...lines('Goes with', job.goesWith),
    '',
  ].join('\n');
}

const lines = (name: string, texts: readonly string[]): string[] =>
  texts.length === 0 ? [] : [`  ${name}: ${texts.join('; ')}`];

function stepLines(job: Job, step: Step, index: number): string[] {
  const { work, waitAfter } = step;
  const minutes = [work.leastMin, work.likelyMin, work.mostMin].map((min) => Math.round(min)).join('/');
  const wait =
    waitAfter === null
      ? []
      : [
          `     then ${waitAfter.kind} by itself: ${waitAfter.leastH}/${waitAfter.likelyH}/${waitAfter.mostH} h, counted as ${waitP80H(waitAfter).toFixed(1)} h${airText(waitAfter)} (${provenanceOf(job, step.id, 'waitAfter') ?? ''})`,
        ];
  return [
    `  ${index + 1}. ${step.name} [${step.id}]`,
    `     ${minutes} min (${provenanceOf(job, step.id, 'work') ?? ''}); ${step.place}; ${stopWords[step.stop]}; look-out ${step.lookout}; effort ${step.effort}${step.safePointAfter ? '; safe point after it' : ''}${step.clipTo === null ? '' : `; clip to ${step.clipTo}`}`,
    ...(step.rate === null
      ? []
      : [
          `     ${step.rate.amount} ${step.rate.unit} at ${step.rate.slowestPerH}/${step.rate.likelyPerH}/${step.rate.fastestPerH} an hour`,
        ]),
    `     ${limitsText(step.limits)}`,
    ...(step.materials.length === 0
      ? []
      : [`     takes ${step.materials.map(({ item, amount, unit }) => `${amount} ${unit} ${item}`).join(', ')}`]),
    ...step.instructions.map((text) => `     - ${text}`),
    ...wait,
  ];
}

const stopWords = { anywhere: 'stop anywhere', 'at-end': 'stop at its end only', never: 'cannot be stopped' } as const;

function airText({ keptAtC, halvesPerC, floorC, atC }: NonNullable<Step['waitAfter']>): string {
  if (keptAtC !== null) return `, kept at ${keptAtC} °C`;
  const rule = halvesPerC === null ? '' : ` at ${atC} °C, half for every ${halvesPerC} °C warmer`;
  return `${rule}${floorC === null ? '' : `, not below ${floorC} °C`}`;
}

/** Limits of a step in a line: ideal/caution/no-go. */
function limitsText(limits: StepLimits): string {
  const levels = (of: StepLimits['deckWindKn'], name: string, unit: string): string[] =>
    of === null ? [] : [`${name} ${of.ideal}/${of.caution}/${of.noGo} ${unit}`];
  const one = (value: number | null, text: (value: number) => string): string[] =>
    value === null ? [] : [text(value)];
  return [
    ...levels(limits.deckWindKn, 'deck wind', 'kn'),
    ...one(limits.deckGustNoGoKn, (value) => `gust ${value} kn`),
    ...levels(limits.seaHeightM, 'sea', 'm'),
    ...one(limits.steepnessNoGoRatio, (value) => `steepness ${value}`),
    `daylight ${limits.daylight}`,
    ...(limits.rain === 'none' ? ['no rain'] : []),
    ...one(limits.dryBeforeH, (value) => `dry ${value} h before`),
    ...one(limits.airLeastC, (value) => `air from ${value} °C`),
    ...one(limits.seaWaterLeastC, (value) => `water from ${value} °C`),
    ...one(limits.visibilityLeastNm, (value) => `sight ${value} nm`),
    ...limits.byEye,
  ].join('; ');
}

/** What of a job is not as in the library. */
export const differencesText = (differences: readonly Difference[]): string =>
  differences.length === 0
    ? '  As in the library.\n'
    : `  Not as in the library:\n${differences
        .map(
          ({ stepId, key, library, own }) =>
            `    ${stepId === null ? '' : `${stepId}, `}${key}: ${own ?? 'none'} (library ${library ?? 'none'})\n`,
        )
        .join('')}`;

/** Proposals, one after the other, each with what to add and where. */
export const proposalsText = (proposals: readonly Proposal[]): string =>
  proposals.length === 0
    ? 'Nothing to propose: no soak to begin, nothing more to do on this drop.\n'
    : proposals.map(proposalText).join('');

function proposalText({ text, add, orders }: Proposal): string {
  const entry = add === null ? '' : `  Add to the jobs: ${JSON.stringify(add)}\n`;
  const said = add === null ? [] : orders.map(({ jobId, after }) => `"${after}" to the after of "${jobId}"`);
  return `- ${text}\n${entry}${said.length === 0 ? '' : `  and ${said.join(', ')}\n`}`;
}
