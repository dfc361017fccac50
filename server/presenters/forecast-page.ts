import { formatLat, formatLon } from '../../lib/geo/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { FetchEstimate, FetchProgress, ForecastSource } from '../fetchers/index.ts';
import type { FetchAsked, FetchStanding } from '../keep-forecasts.ts';
import type { StoredForecast } from '../stores/index.ts';
import { storedHash, storedName } from '../stores/passage-files.ts';
import { sizeText } from './amount-sizes.ts';
import type { Clock } from './clock.ts';
import { fetchResultLines } from './fetch-words.ts';
import type { ForecastSummary, HeldQuantity } from './forecast-summary.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';
import { durationText, type TimeTexts, timeTexts } from './time-texts.ts';

/** What the plan knows of the weather, the files it can be made of, and getting new ones. */
export interface ForecastPage {
  readonly kind: 'forecast';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  /** null: no plan has read a forecast yet. */
  readonly held: HeldView | null;
  readonly files: readonly FileRow[];
  readonly fetch: FetchView | null;
  readonly form: FetchForm;
  /** Why the store cannot be read, or the choice of files not saved. */
  readonly problems: readonly Problem[];
}

export interface HeldView {
  readonly title: string;
  /** Age, span, members. */
  readonly lines: readonly string[];
  readonly rows: readonly HeldRow[];
  readonly missing: string;
  /** The forecast against the log. */
  readonly seen: readonly string[];
  readonly uncovered: readonly Problem[];
  readonly notes: readonly string[];
  readonly problems: readonly Problem[];
}

export interface HeldRow {
  readonly name: string;
  readonly span: string;
  readonly step: string;
  readonly members: string;
  readonly area: string;
}

export interface FileRow {
  /** As the passage names it. */
  readonly reference: string;
  readonly name: string;
  readonly isUsed: boolean;
  readonly size: string;
  readonly came: string;
  /** Of a file that only lies in the store: it can be removed. */
  readonly removeHash: string | null;
}

export interface FetchView {
  readonly title: string;
  readonly lines: readonly string[];
  /** 0 to 1; null: not known. */
  readonly share: number | null;
  readonly isGoingOn: boolean;
  readonly attribution: string;
  readonly problems: readonly Problem[];
  /** What has come can be planned with; null: nothing has. */
  readonly use: { readonly reference: string } | null;
}

export interface FetchForm {
  readonly asked: FetchAsked;
  readonly sources: readonly SourceOption[];
  readonly estimate: readonly string[];
  readonly problems: readonly Problem[];
}

export interface SourceOption {
  readonly id: string;
  readonly text: string;
  /** Terms and attribution, under the list. */
  readonly about: string;
}

export interface ForecastShown {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  /** null: no plan stands. */
  readonly summary: ForecastSummary | null;
  readonly seen: readonly string[];
  readonly stored: readonly StoredForecast[];
  /** Files beside the passage that it was planned with before. */
  readonly namedBefore: readonly string[];
  readonly sources: readonly ForecastSource[];
  readonly fetching: FetchStanding | null;
  readonly asked: FetchAsked;
  readonly estimate: FetchEstimate | null;
  readonly formProblems: readonly Problem[];
  readonly problems: readonly Problem[];
}

export const NOTHING_ASKED: FetchAsked = {
  sourceId: '',
  address: '',
  cycle: 'latest',
  steps: '',
  quantities: '',
  members: '',
  mostKbPerS: '',
};

export function forecastPage(shown: ForecastShown): ForecastPage {
  const { document, nowEpochMs } = shown;
  const { passage } = document;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  return {
    kind: 'forecast',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    held: shown.summary === null ? null : heldView(shown.summary, shown, times),
    files: fileRows(shown, times),
    fetch: shown.fetching === null ? null : fetchView(shown.fetching, times),
    form: {
      asked: shown.asked,
      sources: shown.sources.map(({ id, name, licence, attribution }) => ({
        id,
        text: name,
        about: `${attribution} Terms: ${licence}.`,
      })),
      estimate: shown.estimate === null ? [] : [estimateText(shown.estimate)],
      problems: shown.formProblems,
    },
    problems: shown.problems,
  };
}

function heldView(summary: ForecastSummary, { document, nowEpochMs, seen }: ForecastShown, times: TimeTexts): HeldView {
  const atEpochMs = document.passage.fixedNowEpochMs ?? nowEpochMs;
  const ageMin = Math.max(0, (atEpochMs - summary.baseEpochMs) / 60_000);
  return {
    title: `The forecast of ${times.full(summary.baseEpochMs)} (${times.utc(summary.baseEpochMs)})`,
    lines: [
      `It is ${durationText(ageMin)} old and reaches to ${times.full(summary.endEpochMs)} (${times.utc(summary.endEpochMs)}), ` +
        `${durationText(Math.max(0, (summary.endEpochMs - atEpochMs) / 60_000))} from now.`,
      membersText(summary),
    ],
    rows: grouped(summary.quantities.map((held) => heldRow(held, times))),
    missing:
      summary.missing.length === 0
        ? ''
        : `It does not hold ${summary.missing.join(', ')}: what depends on them is unknown, and unknown never counts as safe.`,
    seen,
    uncovered: summary.uncovered,
    notes: summary.notes,
    problems: summary.problems,
  };
}

function membersText({ memberCount, hasControl }: ForecastSummary): string {
  if (memberCount < 2)
    return 'It is one forecast, not an ensemble: how far it may be wrong is taken from how far ahead it looks.';
  return `It is an ensemble of ${memberCount} members${hasControl ? ' and a control run' : ''}: they show how sure it is.`;
}

function heldRow(held: HeldQuantity, times: TimeTexts): HeldRow {
  const { stepH, gridStepDeg } = held;
  const steps =
    stepH === null
      ? 'one field'
      : stepH.least === stepH.most
        ? hours(stepH.least)
        : `${stepH.least} to ${hours(stepH.most)}`;
  const members = [
    ...(held.memberCount > 0 ? [`${held.memberCount} members`] : []),
    ...(held.hasControl ? [held.memberCount > 0 ? 'control' : 'one run'] : []),
  ];
  return {
    name: held.name,
    span: `${times.full(held.firstEpochMs)} to ${times.full(held.endEpochMs)}`,
    step: steps,
    members: members.join(', '),
    area: `${areaText(held.area)}, every ${trimmed(gridStepDeg.lat)}°`,
  };
}

/** Quantities of which the same is to be said stand in one row. */
function grouped(rows: readonly HeldRow[]): HeldRow[] {
  const byRest = new Map<string, HeldRow>();
  for (const row of rows) {
    const key = [row.span, row.step, row.members, row.area].join('|');
    const before = byRest.get(key);
    byRest.set(key, before === undefined ? row : { ...before, name: `${before.name}, ${row.name}` });
  }
  return [...byRest.values()];
}

const hours = (stepH: number): string => `${trimmed(stepH)} h`;
const trimmed = (value: number): string => String(Math.round(value * 100) / 100);

const areaText = ({ southWest, northEast }: HeldQuantity['area']): string =>
  `${formatLat(southWest.lat, 0)} to ${formatLat(northEast.lat, 0)}, ${formatLon(southWest.lon, 0)} east to ${formatLon(northEast.lon, 0)}`;

/** Files the passage names, then what else lies in the store. */
function fileRows({ document, stored, namedBefore }: ForecastShown, times: TimeTexts): FileRow[] {
  const { forecasts } = document.passage;
  const entryOf = (reference: string): StoredForecast | null =>
    stored.find(({ hash }) => storedHash(reference) === hash) ?? null;
  const used = forecasts.map((reference) => {
    const entry = entryOf(reference);
    return entry === null ? besideRow(reference) : { ...storeRow(entry, times), isUsed: true, removeHash: null };
  });
  const others = stored.filter(({ hash }) => !forecasts.includes(storedName(hash)));
  const before = namedBefore.filter((name) => storedHash(name) === null && !forecasts.includes(name));
  return [
    ...used,
    ...before.map((name) => ({ ...besideRow(name), isUsed: false })),
    ...others.map((entry) => storeRow(entry, times)),
  ];
}

const besideRow = (reference: string): FileRow => ({
  reference,
  name: storedHash(reference) === null ? reference : `${reference.slice(0, 16)}…`,
  isUsed: true,
  size: '',
  came: storedHash(reference) === null ? 'beside the passage file' : 'no longer in the store',
  removeHash: null,
});

const storeRow = ({ hash, fileName, sizeOctets, addedAtEpochMs }: StoredForecast, times: TimeTexts): FileRow => ({
  reference: storedName(hash),
  name: fileName,
  isUsed: false,
  size: sizeText(sizeOctets),
  came: `came ${times.full(addedAtEpochMs)}`,
  removeHash: hash,
});

function estimateText({ fileCount, allOctets, isGuess }: FetchEstimate): string {
  const files = fileCount === 1 ? 'one file' : `${fileCount} files`;
  if (allOctets === null) return `It is ${files}; the source does not say how large.`;
  const slow = durationText(Math.max(1, allOctets / SATELLITE_OCTETS_PER_S / 60));
  return (
    `It is ${isGuess ? 'about ' : ''}${sizeText(allOctets)} in ${files}: ${slow} over a satellite line of 2400 bits a second, ` +
    `${durationText(Math.max(1, allOctets / SLOW_OCTETS_PER_S / 60))} at 50 kB a second.`
  );
}

const SATELLITE_OCTETS_PER_S = 300;
const SLOW_OCTETS_PER_S = 50_000;

function fetchView({ name, attribution, progress, result }: FetchStanding, times: TimeTexts): FetchView {
  const share =
    progress.allOctets === null || progress.allOctets === 0 ? null : progress.gotOctets / progress.allOctets;
  return {
    title: result === null ? `Getting ${name}` : result.ok ? `${name} is here` : `${name} did not come`,
    lines: result === null ? progressLines(progress, times) : fetchResultLines(result),
    share: result === null && share !== null ? Math.min(1, share) : null,
    isGoingOn: result === null,
    attribution,
    problems: result === null || result.ok ? [] : result.problems,
    use: result?.ok === true ? { reference: storedName(result.value.hash) } : null,
  };
}

function progressLines(progress: FetchProgress, times: TimeTexts): string[] {
  const { gotOctets, allOctets, isAllEstimated, octetsPerS, leftS } = progress;
  const all = allOctets === null ? '' : ` of ${isAllEstimated ? 'about ' : ''}${sizeText(allOctets)}`;
  const rate = octetsPerS === null ? '' : `, ${sizeText(Math.round(octetsPerS))} a second`;
  const left = leftS === null ? '' : `, ${durationText(Math.max(1, leftS / 60))} left`;
  const waiting =
    progress.waitUntilEpochMs === null
      ? []
      : [`It waits until ${times.time(progress.waitUntilEpochMs)}: ${progress.waitReason ?? 'the line broke'}`];
  return [
    `File ${progress.fileNumber} of ${progress.fileCount}: ${sizeText(gotOctets)}${all}${rate}${left}.`,
    ...waiting,
  ];
}
