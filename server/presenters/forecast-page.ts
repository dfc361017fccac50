import type { Problem } from '../../lib/result/index.ts';
import type { FetchEstimate, ForecastSource } from '../fetchers/index.ts';
import type { FetchAsked, FetchStanding } from '../keep-forecasts.ts';
import type { StoredForecast } from '../stores/index.ts';
import { storedHash, storedName } from '../stores/passage-files.ts';
import { sizeText } from './amount-sizes.ts';
import type { Clock } from './clock.ts';
import { estimateText, type FetchForm, type FetchView, fetchView } from './forecast-fetch.ts';
import { type HeldView, heldView } from './forecast-held.ts';
import type { ForecastSummary } from './forecast-summary.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';
import { type TimeTexts, timeTexts } from './time-texts.ts';

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
  /** Of a file that only lies in the store: it can be removed. */
  readonly removeHash: string | null;
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
  readonly uploadProblems?: readonly Problem[] | undefined;
  readonly problems: readonly Problem[];
}

export function forecastPage(shown: ForecastShown): ForecastPage {
  const { document, nowEpochMs } = shown;
  const { passage } = document;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  return {
    kind: 'forecast',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    held:
      shown.summary === null
        ? null
        : heldView(shown.summary, { atEpochMs: passage.fixedNowEpochMs ?? nowEpochMs, seen: shown.seen }, times),
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
    uploadProblems: shown.uploadProblems ?? [],
    problems: shown.problems,
  };
}

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
