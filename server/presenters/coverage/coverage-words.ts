import { joined } from '../limit-texts.ts';
import { type TimeTexts, durationText } from '../time-texts.ts';
import type { CoverageData, QuantityCovered, SilentSpan } from './coverage-model.ts';

/** Part of a span that lies before an instant; null: none of it does. */
export function before<Span extends { readonly fromEpochMs: number; readonly toEpochMs: number }>(
  span: Span,
  untilEpochMs: number,
): Span | null {
  const toEpochMs = Math.min(span.toEpochMs, untilEpochMs);
  return span.fromEpochMs < toEpochMs ? { ...span, toEpochMs } : null;
}

/** What the forecast does not say of the hours and places of the plan, and what follows from it, in sentences. */
export function coverageSentences(data: CoverageData, times: TimeTexts): string[] {
  const gaps = groupsOf(data).flatMap((group) => groupSentences(group, data, times));
  const end = times.full(data.planEndEpochMs);
  const whole = `All it holds is known wherever she will be, to the end of the plan, ${end}.`;
  return [...(gaps.length === 0 ? [whole] : gaps), ...afterPlan(data, times)];
}

interface Group {
  readonly names: readonly string[];
  readonly ids: readonly string[];
  readonly neededBy: readonly string[];
  readonly silent: readonly SilentSpan[];
}

/** Quantities that are silent at the same hours, for the same reason. */
function groupsOf({ quantities, planEndEpochMs }: CoverageData): Group[] {
  const groups = new Map<string, QuantityCovered[]>();
  for (const quantity of quantities) {
    const key = JSON.stringify(quantity.silent.map((span) => before(span, planEndEpochMs)));
    groups.set(key, [...(groups.get(key) ?? []), quantity]);
  }
  return [...groups.values()].map((group) => ({
    names: group.map(({ name }) => name),
    ids: group.map(({ id }) => id),
    neededBy: [...new Set(group.flatMap(({ neededBy }) => neededBy))],
    silent: (group[0]?.silent ?? []).flatMap((span) => before(span, planEndEpochMs) ?? []),
  }));
}

function groupSentences(group: Group, data: CoverageData, times: TimeTexts): string[] {
  return group.silent.map((span) => {
    const isFromStart = span.fromEpochMs <= data.fromEpochMs;
    const isToEnd = span.toEpochMs >= data.planEndEpochMs;
    return `${spanSentence(group, span, { isFromStart, isToEnd, times })}: ${consequence(group, isToEnd && !isFromStart)}`;
  });
}

function spanSentence(
  group: Group,
  span: SilentSpan,
  { isFromStart, isToEnd, times }: { isFromStart: boolean; isToEnd: boolean; times: TimeTexts },
): string {
  const who = joined(group.names);
  const [from, to] = [times.full(span.fromEpochMs), times.full(span.toEpochMs)];
  const hours = hoursText(span.toEpochMs - span.fromEpochMs);
  const isElsewhere = span.why === 'no-place';
  const are = group.names.length === 1 ? 'is' : 'are';
  if (isFromStart && isToEnd)
    return `${upper(who)} ${are} not known at any hour of the plan, ${isElsewhere ? 'for its area or its land' : 'for want of hours'}`;
  if (isFromStart)
    return isElsewhere
      ? `She is outside the area of ${who} until ${to}`
      : `${upper(who)} ${group.names.length === 1 ? 'begins' : 'begin'} ${to}, ${hours} after the plan does`;
  if (isToEnd)
    return isElsewhere
      ? `She leaves the area of ${who} ${from}, ${hours} before the plan ends`
      : `${upper(who)} ${group.names.length === 1 ? 'ends' : 'end'} ${from}, ${hours} before the plan does`;
  return isElsewhere
    ? `She is outside the area of ${who} from ${from} to ${to}, ${hours}`
    : `${upper(who)} ${are} not known from ${from} to ${to}, ${hours}: steps are missing or too far apart`;
}

function consequence({ ids, neededBy }: Group, isToEnd: boolean): string {
  const when = isToEnd ? 'after it' : 'then';
  if (ids.includes('wind')) return `no work on deck can be planned ${when}.`;
  if (neededBy.length === 0) return 'no job has a limit on it.';
  const jobs = neededBy.length === 1 ? 'one job has' : `${neededBy.length} jobs have`;
  return `${jobs} a limit on it, and ${when} ${neededBy.length === 1 ? 'is' : 'are'} conditional at best (${joined(neededBy)}).`;
}

/** What lies beyond the plan: the rest of the way. */
function afterPlan({ arrivesEpochMs, endEpochMs, leftNm }: CoverageData, times: TimeTexts): string[] {
  if (arrivesEpochMs !== null)
    return [
      `Without stopping she is at the end of her track ${times.full(arrivesEpochMs)}, ${hoursText(endEpochMs - arrivesEpochMs)} before the hours of the forecast end.`,
    ];
  return [
    `The hours looked at end ${times.full(endEpochMs)}; without stopping she has ${Math.round(leftNm)} nm of her track left then.`,
  ];
}

const upper = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Hours to the whole one where there are many. */
const hoursText = (durationMs: number): string =>
  durationMs >= 6 * 3_600_000 ? `${Math.round(durationMs / 3_600_000)} h` : durationText(durationMs / 60_000);
