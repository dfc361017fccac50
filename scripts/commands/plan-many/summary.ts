/** What became of all passages. */
import type { PassageOutcome } from './plan-one.ts';

export interface Summary {
  readonly outFolder: string;
  readonly parallelCount: number;
  readonly tookMs: number;
  readonly passedOver: readonly string[];
  readonly passages: readonly PassageOutcome[];
}

/** As JSON; amounts in milliseconds and octets. */
export function publishedSummary(summary: Summary) {
  const { passages, ...rest } = summary;
  return {
    ...rest,
    plannedCount: countOf(summary, 'planned'),
    keptCount: countOf(summary, 'kept'),
    failedCount: countOf(summary, 'failed'),
    stoppedCount: countOf(summary, 'stopped'),
    passages,
  };
}

/** As a table; times of plans that were kept are those of their making. */
export function summaryText(summary: Summary): string {
  const { passages, passedOver, outFolder } = summary;
  const width = Math.max(7, ...passages.map(({ name }) => name.length));
  const rows = passages.flatMap((of) => [rowOf(of, width), ...of.said.map((line) => `    ${line}`)]);
  return [
    `${'passage'.padEnd(width)}  state       s  processor s    MiB`,
    ...rows,
    ...passedOver.map((file) => `passed over, no passage: ${file}`),
    `${countsText(summary)}, in ${secondsText(summary.tookMs)} s, ${summary.parallelCount} at once; plans in ${outFolder}`,
    '',
  ].join('\n');
}

const countOf = ({ passages }: Summary, state: PassageOutcome['state']): number =>
  passages.filter((of) => of.state === state).length;

function countsText(summary: Summary): string {
  const stoppedCount = countOf(summary, 'stopped');
  const stopped = stoppedCount === 0 ? '' : `, ${stoppedCount} not made because it was stopped`;
  return `${countOf(summary, 'planned')} planned, ${countOf(summary, 'kept')} there already, ${countOf(summary, 'failed')} failed${stopped}`;
}

function rowOf({ name, state, tookMs, processorMs, peakOctets }: PassageOutcome, width: number): string {
  const columns = [
    (tookMs === null ? '–' : secondsText(tookMs)).padStart(6),
    (processorMs === null ? '–' : secondsText(processorMs)).padStart(11),
    (peakOctets === null ? '–' : String(Math.round(peakOctets / 2 ** 20))).padStart(5),
  ];
  return `${name.padEnd(width)}  ${state.padEnd(7)} ${columns.join('  ')}`;
}

const secondsText = (tookMs: number): string => (tookMs / 1000).toFixed(1);
