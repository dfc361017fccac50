import type { PlanEntry } from '../../lib/planner/index.ts';
import { lowerFirst } from './word-lines.ts';
import { handlingText } from './handling-text.ts';
import type { PassageView } from './plan-standing.ts';
import { lookoutSentence } from './plan-notes.ts';
import { sailText } from './shown-names.ts';
import { durationText, epochOf, type TimeTexts } from './time-texts.ts';
import { lightWords } from './light-words.ts';
import { windSpan } from './units/hour-figures.ts';

/** What is done when, day by day on the ship's clock. */
export interface WatchBill {
  readonly days: readonly WatchDay[];
  /** What must be said wherever sleep appears; null: nobody sleeps. */
  readonly lookout: string | null;
}

export interface WatchDay {
  readonly day: string;
  readonly rows: readonly WatchRow[];
}

export interface WatchRow {
  readonly key: string;
  readonly kind: 'work' | 'conditional' | 'sleep' | 'lookout' | 'wait' | 'watch';
  readonly ship: string;
  readonly utc: string;
  readonly lasts: string;
  readonly what: string;
  /** Steps, session, alarm; empty: nothing to add. */
  readonly rest: string;
  /** null: not a job. */
  readonly href: string | null;
  readonly handling: string;
  readonly sail: string;
  readonly place: string;
  readonly deckWind: string;
  readonly light: string;
  /** Karolinska sleepiness, 1 wide awake to 9 fighting sleep, at start and end. */
  readonly sleepiness: string;
}

export function watchBill(view: PassageView, times: TimeTexts): WatchBill {
  const { plan } = view;
  const entries = plan.entries.toSorted((a, b) => epochOf(a.startUtc) - epochOf(b.startUtc));
  const rows = [
    ...entries.map((entry) => ({ atEpochMs: epochOf(entry.startUtc), row: entryRow(view, entry, times) })),
    ...watchGaps(view, entries).map((gap) => ({ atEpochMs: gap.fromEpochMs, row: watchRow(gap, times) })),
  ].toSorted((a, b) => a.atEpochMs - b.atEpochMs);
  const days = new Map<string, WatchRow[]>();
  for (const { atEpochMs, row } of rows) {
    const day = times.day(atEpochMs);
    days.set(day, [...(days.get(day) ?? []), row]);
  }
  return {
    days: [...days].map(([day, inDay]) => ({ day, rows: inDay })),
    lookout: entries.some(({ kind }) => kind === 'sleep') ? lookoutSentence(plan) : null,
  };
}

interface Gap {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
}

/** Hours in which nothing is planned: the sailor is on watch. Background waits need nobody and fill no gap. */
function watchGaps({ picture }: PassageView, entries: readonly PlanEntry[]): Gap[] {
  const gaps: Gap[] = [];
  let freeEpochMs = picture.nowEpochMs;
  for (const entry of entries.filter(({ kind }) => kind !== 'wait')) {
    const startEpochMs = epochOf(entry.startUtc);
    if (startEpochMs > freeEpochMs) gaps.push({ fromEpochMs: freeEpochMs, toEpochMs: startEpochMs });
    freeEpochMs = Math.max(freeEpochMs, epochOf(entry.endUtc));
  }
  return gaps;
}

const nothing = { rest: '', href: null, handling: '', sail: '', place: '', deckWind: '', light: '', sleepiness: '' };

const watchRow = ({ fromEpochMs, toEpochMs }: Gap, times: TimeTexts): WatchRow => ({
  key: `watch ${fromEpochMs}`,
  kind: 'watch',
  ...spanTexts(fromEpochMs, toEpochMs, times),
  what: 'On watch',
  ...nothing,
});

function spanTexts(fromEpochMs: number, toEpochMs: number, times: TimeTexts): Pick<WatchRow, 'ship' | 'utc' | 'lasts'> {
  const bare = (epochMs: number): string => times.utc(epochMs).replace(/^\w+ | UTC$/g, '');
  return {
    ship: `${times.time(fromEpochMs)}–${times.time(toEpochMs)}`,
    utc: `${times.utc(fromEpochMs).replace(' UTC', '')}–${bare(toEpochMs)}`,
    lasts: durationText((toEpochMs - fromEpochMs) / 60_000),
  };
}

function entryRow(view: PassageView, entry: PlanEntry, times: TimeTexts): WatchRow {
  const job = view.plan.jobs.find(({ jobId }) => jobId === entry.jobId);
  const wind = entry.deckWindKn;
  return {
    key: `${entry.kind} ${entry.startUtc} ${entry.jobId ?? ''}`,
    kind: entry.kind === 'work' && job?.status === 'conditional' ? 'conditional' : entry.kind,
    ...spanTexts(epochOf(entry.startUtc), epochOf(entry.endUtc), times),
    ...whatTexts(view, entry, times),
    href: job === undefined ? null : `#job-${job.jobId}`,
    handling: entry.handling === null ? '' : handlingText(view.picture, entry.handling),
    sail: lowerFirst(sailText(view.names, entry.sailState)),
    place: entry.place ?? '',
    deckWind: wind === null ? '' : windSpan(wind, times.units),
    light: lightWords[entry.light],
    sleepiness: entry.kind === 'wait' ? '' : sleepinessText(entry),
  };
}

const sleepinessText = ({ kind, kssStart, kssEnd }: PlanEntry): string =>
  kind === 'sleep' ? `${kssEnd.toFixed(1)} on waking` : `${kssStart.toFixed(1)} to ${kssEnd.toFixed(1)}`;

function whatTexts(view: PassageView, entry: PlanEntry, times: TimeTexts): Pick<WatchRow, 'what' | 'rest'> {
  if (entry.kind === 'sleep') return { what: 'Sleep', rest: `alarm at ${times.time(epochOf(entry.endUtc))}` };
  if (entry.kind === 'lookout') return { what: 'Look round', rest: '' };
  const name = view.plan.jobs.find(({ jobId }) => jobId === entry.jobId)?.name ?? 'Work';
  if (entry.kind === 'wait') return { what: name, rest: 'waits by itself' };
  return {
    what: name,
    rest: [sessionText(view, entry), stepsOf(view, entry), restAfterText(entry)]
      .filter((text) => text !== '')
      .join('; '),
  };
}

/** Rest of the body after heavy work. */
const restAfterText = ({ restAfterMin }: PlanEntry): string =>
  restAfterMin === 0 ? '' : `then ${durationText(restAfterMin)} of rest before more heavy work`;

/** Which of several goes at a job this is. */
function sessionText({ plan }: PassageView, entry: PlanEntry): string {
  const goes = plan.entries.filter(({ kind, jobId }) => kind === 'work' && jobId === entry.jobId);
  return goes.length < 2 ? '' : `${goes.indexOf(entry) + 1} of ${goes.length}`;
}

function stepsOf({ names }: PassageView, entry: PlanEntry): string {
  const steps = names.jobs.find(({ jobId }) => jobId === entry.jobId)?.parts.flatMap((part) => part.steps) ?? [];
  const texts = entry.stepIds.map((id) => steps.find((step) => step.id === id)?.name ?? id.replaceAll('-', ' '));
  return texts.map(lowerFirst).join(', ');
}
