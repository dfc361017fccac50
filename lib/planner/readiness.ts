import { readinessOf, readinessWords, type JobReadiness, type ReadinessFinding } from '../jobs/index.ts';
import type { Passage } from '../passage/index.ts';
import type { MaterialShort } from '../stock/index.ts';
import { PIECES } from '../stock/index.ts';
import type { NearestMiss } from './plan.ts';
import { rounded } from './rounded.ts';

/**
 * Readiness of the jobs of a passage.
 *
 * @param orderIds jobs in the order they take from the locker; null: by importance, as a plan is made
 */
export function passageReadiness(
  { jobs, locker, orders }: Passage,
  orderIds: readonly string[] | null = null,
): JobReadiness[] {
  const input = { jobs, locker, progress: orders.jobs };
  if (orderIds === null) return readinessOf(input);
  return readinessOf(
    input,
    orderIds.flatMap((id) => jobs.filter((job) => job.id === id)),
  );
}

/** Jobs that no weather can help: parts or tools short, or after such a job. What was not counted bars none. */
export const excludedJobs = (passage: Passage): Map<string, NearestMiss> =>
  new Map(
    passageReadiness(passage)
      .filter(({ status }) => status === 'not')
      .map(({ jobId, findings }) => [jobId, missOf(findings)]),
  );

const noStart = { startUtc: null, handling: null, probability: null, bindingLimit: null } as const;

/** What is short of is told before what it comes after. */
function missOf(findings: readonly ReadinessFinding[]): NearestMiss {
  const shorts = findings.filter(({ code }) => code === 'material-short' || code === 'tool-missing');
  if (shorts.length > 0)
    return { reason: 'materials', ...noStart, text: shortText(shorts), wouldHelp: shortHelp(shorts) };
  const after = findings.filter(({ code }) => code === 'after-barred').map(readinessWords);
  const [first] = after;
  if (first === undefined) throw new Error('a job that cannot be done has its reason');
  return { reason: 'precedence', ...noStart, text: first.text, wouldHelp: first.remedies.join(' ') };
}

function shortText(findings: readonly ReadinessFinding[]): string {
  const materials = findings.flatMap((of) =>
    of.code === 'material-short' ? [`${of.item}: short by ${inUnit(rounded(of.shortAmount, 1), of.unit)}`] : [],
  );
  return [
    ...(materials.length === 0 ? [] : [`The locker does not hold enough. ${materials.join('; ')}.`]),
    ...findings.filter(({ code }) => code === 'tool-missing').map((of) => readinessWords(of).text),
  ].join(' ');
}

const inUnit = (amount: number, unit: string): string =>
  `${amount} ${amount === 1 && unit === PIECES ? 'piece' : unit}`;

function shortHelp(findings: readonly ReadinessFinding[]): string {
  const makers = findings.flatMap((of) => (of.code === 'material-short' ? of.makerIds : []));
  const isShort = findings.some(({ code }) => code === 'material-short');
  const isToolMissing = findings.some(({ code }) => code === 'tool-missing');
  return [
    ...[...new Set(makers)].map((id) => `"${id}" makes it: add "${id}" to the jobs this one comes after.`),
    ...(isShort ? ['Find more, use something else, or lower the reserve knowingly.'] : []),
    ...(isToolMissing ? ['List the tool where it is on board, or do without it.'] : []),
  ].join(' ');
}

/** What a job is short of, tools among it as one piece each. */
export const shortsOf = ({ findings }: JobReadiness): MaterialShort[] =>
  findings.flatMap((of): MaterialShort[] => {
    if (of.code === 'material-short') return [of];
    if (of.code !== 'tool-missing') return [];
    return [{ item: of.tool, unit: PIECES, neededAmount: 1, availableAmount: 0, shortAmount: 1 }];
  });
