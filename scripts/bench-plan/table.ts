/** The tables of the benchmark. */
import type { InstanceSpec } from '../schedule-instances/instance-spec.ts';
import type { Measured } from './measure.ts';
import { quantile, shareOf } from './statistics.ts';

const TITLE_WIDTH = 34;
const LIMIT_MS = 5000;

const cells = (texts: readonly string[]): string => texts.map((text) => text.padStart(10)).join('');
const seconds = (ms: number): string => `${(ms / 1000).toFixed(2)} s`;
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const megabytes = (octets: number): string => `${(octets / 1e6).toFixed(0)} MB`;

export const groupHeading = (): string =>
  'group'.padEnd(TITLE_WIDTH) +
  cells(['n', 'P proven', 'all < 5 s', 'median', 'p90', 'p95', 'max', 'first med', 'first max', 'peak']);

export function groupRow(title: string, measured: readonly Measured[]): string {
  const times = measured.map(({ elapsedMs }) => elapsedMs);
  const firsts = measured.map(({ firstMs }) => firstMs);
  return (
    title.padEnd(TITLE_WIDTH) +
    cells([
      String(measured.length),
      percent(shareOf(measured, ({ provenProbability }) => provenProbability)),
      percent(shareOf(measured, ({ proven, elapsedMs }) => proven && elapsedMs <= LIMIT_MS)),
      seconds(quantile(times, 0.5)),
      seconds(quantile(times, 0.9)),
      seconds(quantile(times, 0.95)),
      seconds(Math.max(...times)),
      seconds(quantile(firsts, 0.5)),
      seconds(Math.max(...firsts)),
      megabytes(Math.max(...measured.map(({ peakOctetCount }) => peakOctetCount))),
    ])
  );
}

export const growthHeading = (): string =>
  'tasks, hours, slot, members, lags'.padEnd(TITLE_WIDTH) +
  cells(['first', 'time', 'P proven', 'proven', 'priority', '≤', 'joint', '≤', 'cost', '≥', 'peak']);

const specTitle = ({ taskCount, hourCount, slotMin, memberCount, lagCount }: InstanceSpec): string =>
  `${taskCount}, ${hourCount} h, ${slotMin} min, ${memberCount}, ${lagCount}`;

/** Worth beside its bound, level by level. */
export function growthRow({ spec, worth, bound, ...rest }: Measured): string {
  return (
    specTitle(spec).padEnd(TITLE_WIDTH) +
    cells([
      seconds(rest.firstMs),
      seconds(rest.elapsedMs),
      rest.provenProbability ? 'yes' : 'no',
      rest.proven ? 'yes' : 'no',
      String(worth.priorityWeight),
      String(bound.priorityWeight),
      String(worth.jointWeight),
      String(bound.jointWeight),
      String(worth.costPoints),
      String(bound.costPoints),
      megabytes(rest.peakOctetCount),
    ])
  );
}
