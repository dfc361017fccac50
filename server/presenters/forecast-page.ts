import type { Problem } from '../../lib/result/index.ts';
import type { Track } from '../../lib/track/index.ts';
import type { FetchEstimate, ForecastSource } from '../fetchers/index.ts';
import type { FetchAsked, FetchStanding } from '../keep-forecasts.ts';
import type { ForecastCredit, StoredForecast } from '../stores/index.ts';
import { storedHash, storedName } from '../stores/passage-files.ts';
import { sizeText } from '../../lib/units/index.ts';
import type { Clock } from './clock.ts';
import { fetchFields } from './fetch-fields.ts';
import { estimateText, type FetchForm, type FetchView, fetchView } from './forecast-fetch.ts';
import { type HeldView, heldView } from './forecast-held.ts';
import type { FileCovered } from './coverage/coverage-model.ts';
import type { ForecastSummary } from './forecast-summary.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';
import { durationText, type TimeTexts, timeTexts } from './time-texts.ts';
import type { ShownUnits } from './units/shown-units.ts';

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
  /** What is wrong with files that were sent, each by its name. */
  readonly uploadProblems: readonly Problem[];
  /** Why the store cannot be read, or the choice of files not saved. */
  readonly problems: readonly Problem[];
}

export interface FileRow {
  /** As the passage names it. */
  readonly reference: string;
  readonly name: string;
  readonly isUsed: boolean;
  readonly size: string;
  readonly came: string;
  /** What the plan found in it: run, quantities, hours; a line for each run. */
  readonly holds: readonly string[];
  /** Who is to be named for it and on which terms; empty: nothing is known of it. */
  readonly credit: string;
  /** Of a file that only lies in the store: it can be removed. */
  readonly removeHash: string | null;
}

export interface ForecastShown {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  /** null: no plan stands. */
  readonly summary: ForecastSummary | null;
  readonly seen: readonly string[];
  /** null: no plan stands. */
  readonly track: Track | null;
  readonly stored: readonly StoredForecast[];
  /** Files beside the passage that it was planned with before. */
  readonly namedBefore: readonly string[];
  readonly sources: readonly ForecastSource[];
  readonly fetching: FetchStanding | null;
  readonly asked: FetchAsked;
  readonly estimate: FetchEstimate | null;
  readonly formProblems: readonly Problem[];
  readonly uploadProblems?: readonly Problem[] | undefined;
  readonly problems: readonly Problem[];
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
}

export function forecastPage(shown: ForecastShown): ForecastPage {
  const { document, nowEpochMs } = shown;
  const { passage } = document;
  const times = timeTexts(passage.settings.shipTimeOffsetMin, shown.units);
  return {
    kind: 'forecast',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    held:
      shown.summary === null
        ? null
        : heldView(
            shown.summary,
            {
              atEpochMs: passage.fixedNowEpochMs ?? nowEpochMs,
              seen: shown.seen,
              shipTimeOffsetMin: passage.settings.shipTimeOffsetMin,
              track: shown.track,
              fileName: (reference) => nameOf(reference, shown.stored),
            },
            times,
          ),
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
      fields: fetchFields(shown.asked, shown.formProblems),
      problems: shown.formProblems,
    },
    uploadProblems: shown.uploadProblems ?? [],
    problems: shown.problems,
  };
}

/** Files the passage names, then what else lies in the store. */
function fileRows(shown: ForecastShown, times: TimeTexts): FileRow[] {
  const atEpochMs = shown.document.passage.fixedNowEpochMs ?? shown.nowEpochMs;
  const read = shown.summary?.coverage.files ?? [];
  return namedRows(shown, times).map((row) => ({
    ...row,
    holds: read.filter(({ reference }) => reference === row.reference).map((file) => holdsText(file, atEpochMs, times)),
  }));
}

function namedRows({ document, stored, namedBefore }: ForecastShown, times: TimeTexts): FileRow[] {
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

const nameOf = (reference: string, stored: readonly StoredForecast[]): string => {
  const hash = storedHash(reference);
  if (hash === null) return reference;
  return stored.find((entry) => entry.hash === hash)?.fileName ?? `${reference.slice(0, 16)}…`;
};

const besideRow = (reference: string): FileRow => ({
  reference,
  name: nameOf(reference, []),
  isUsed: true,
  size: '',
  came: storedHash(reference) === null ? 'beside the passage file' : 'no longer in the store',
  holds: [],
  credit: '',
  removeHash: null,
});

const storeRow = (entry: StoredForecast, times: TimeTexts): FileRow => ({
  reference: storedName(entry.hash),
  name: entry.fileName,
  isUsed: false,
  size: sizeText(entry.sizeOctets),
  came: `came ${times.full(entry.addedAtEpochMs)}`,
  holds: [],
  credit: entry.credit === null ? '' : creditText(entry.credit),
  removeHash: entry.hash,
});

const creditText = ({ sourceName, attribution, terms }: ForecastCredit): string =>
  `${sourceName}. ${attribution} Terms: ${terms}.`;

/** One run in a file: `run of Thu 28 May 00:00 (Wed 12:00 UTC), 6 h old: wind at 10 m, gust; Thu … to Fri …, 20 members`. */
function holdsText(file: FileCovered, atEpochMs: number, times: TimeTexts): string {
  const ageMin = (atEpochMs - file.baseEpochMs) / 60_000;
  const age = ageMin >= 0 ? `, ${durationText(ageMin)} old` : '';
  const members = file.memberCount === 0 ? [] : [`${file.memberCount} members`];
  const runs = [...members, ...(file.hasControl ? [file.memberCount > 0 ? 'control' : 'one run'] : [])];
  return (
    `run of ${times.full(file.baseEpochMs)} (${times.utc(file.baseEpochMs)})${age}: ${file.quantities.join(', ')}; ` +
    `${times.full(file.firstEpochMs)} to ${times.full(file.endEpochMs)}, ${file.stepEndsEpochMs.length} steps, ${runs.join(' and ')}`
  );
}
