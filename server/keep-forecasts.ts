import { join } from 'node:path';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import {
  BUILT_IN_SOURCES,
  creditOf,
  DEFAULT_LIMITS,
  estimateFetch,
  type FetchedForecast,
  type FetchEstimate,
  type FetchJob,
  type FetchLimits,
  type FetchProgress,
  type FetchTarget,
  type ForecastSource,
  parseCycle,
  planTargets,
  realWorld,
  startFetch,
  type World,
  wholeFileTarget,
} from './fetchers/index.ts';
import { type ForecastHours, hoursOfFile, hoursOfSummary, hoursSummary, hoursTogether } from './forecast-hours.ts';
import type { ForecastCredit, Store, StoredForecast } from './stores/index.ts';

/** What is to be fetched, as it was entered. Empty texts: as the source has it. */
export interface FetchAsked {
  /** Id of a built-in source; empty: `address` is one. */
  readonly sourceId: string;
  readonly address: string;
  /** `latest`, or the hour the run began. */
  readonly cycle: string;
  readonly steps: string;
  readonly quantities: string;
  readonly members: string;
  /** Most kB (1000 octets) a second; empty: no cap. */
  readonly mostKbPerS: string;
}

/** The fetch that is under way, or was the last. */
export interface FetchStanding {
  readonly name: string;
  readonly attribution: string;
  readonly progress: FetchProgress;
  /** null: it goes on. */
  readonly result: Result<FetchedForecast> | null;
}

/** The forecasts of the store, and fetching new ones: one at a time. */
export interface ForecastKeeper {
  readonly forecastFiles: () => Result<readonly StoredForecast[]>;
  readonly removeForecast: (hash: string) => Promise<Result<boolean>>;
  readonly sources: readonly ForecastSource[];
  /** null: nothing was fetched since the program started. */
  readonly fetchStanding: () => FetchStanding | null;
  readonly estimate: (asked: FetchAsked) => Promise<Result<FetchEstimate>>;
  /** Begins; it does not wait for the end. `fetch.under-way` while another one is. */
  readonly beginFetch: (asked: FetchAsked) => Result<null>;
  readonly cancelFetch: () => void;
  /** Puts a text or file that came another way under its content hash. */
  readonly keepFile: (file: {
    readonly fileName: string;
    readonly octets: Uint8Array;
  }) => Promise<Result<StoredForecast>>;
  /**
   * Stores a file as it comes from a form; one that is torn off, too long, or neither GRIB nor digest leaves nothing.
   *
   * @returns its entry, or `store.file-too-large`, `grib.*`; throws what the stream throws
   */
  readonly takeForecast: (sent: {
    readonly fileName: string;
    readonly content: AsyncIterable<Uint8Array>;
  }) => Promise<Result<StoredForecast>>;
  /** The hours that files of the store speak of together; null: none says any. */
  readonly hoursOfForecasts: (hashes: readonly string[]) => Promise<ForecastHours | null>;
}

/** Largest file taken from a form [octets]: it is read whole once. */
export const MOST_UPLOAD_OCTETS = 400_000_000;

interface Options {
  readonly store: Store;
  readonly world?: World;
}

/** What one fetch is made of. */
interface Chosen {
  readonly name: string;
  readonly attribution: string;
  /** null: an address of one's own. */
  readonly credit: ForecastCredit | null;
  readonly targets: readonly FetchTarget[];
  readonly limits: FetchLimits;
}

export function keepForecasts({ store, world = realWorld }: Options): ForecastKeeper {
  let last: { readonly chosen: Chosen; readonly job: FetchJob; result: Result<FetchedForecast> | null } | null = null;

  const beginFetch = (asked: FetchAsked): Result<null> => {
    if (last !== null && last.result === null) return failed(underWay(last.chosen.name));
    const chosen = chosenOf(asked, world.nowEpochMs());
    if (!chosen.ok) return chosen;
    const { name, targets, limits, credit } = chosen.value;
    const job = startFetch(
      {
        targets,
        limits,
        fileName: name,
        destination: { kind: 'store', forecasts: store.forecasts, ...(credit === null ? {} : { credit }) },
        keepFolder: join(store.folder, 'fetching'),
        mustHold: [],
      },
      world,
    );
    const begun = { chosen: chosen.value, job, result: null as Result<FetchedForecast> | null };
    last = begun;
    void job.finished.then((result) => {
      begun.result = result;
    });
    return ok(null);
  };

  return {
    forecastFiles: () => store.forecasts.list(),
    removeForecast: (hash) => store.forecasts.remove(hash),
    sources: BUILT_IN_SOURCES,
    fetchStanding: () =>
      last === null
        ? null
        : {
            name: last.chosen.name,
            attribution: last.chosen.attribution,
            progress: last.job.progress(),
            result: last.result,
          },
    estimate: async (asked) => {
      const chosen = chosenOf(asked, world.nowEpochMs());
      if (!chosen.ok) return chosen;
      const { targets, limits } = chosen.value;
      return estimateFetch({ targets, limits, signal: AbortSignal.timeout(ESTIMATE_MS) }, world);
    },
    beginFetch,
    cancelFetch: () => last?.job.cancel(),
    keepFile: ({ fileName, octets }) =>
      store.forecasts.add({
        fileName,
        content: [octets],
        mostOctets: DEFAULT_LIMITS.mostOctets,
        atEpochMs: world.nowEpochMs(),
      }),
    takeForecast: async ({ fileName, content }) => {
      const { forecasts } = store;
      const added = await forecasts.add({
        fileName,
        content,
        mostOctets: MOST_UPLOAD_OCTETS,
        atEpochMs: world.nowEpochMs(),
      });
      if (!added.ok) return added;
      const looked = await lookedInto(store, added.value);
      if (looked.ok) return added;
      await forecasts.remove(added.value.hash);
      return looked;
    },
    hoursOfForecasts: async (hashes) => {
      const all: (ForecastHours | null)[] = [];
      for (const hash of hashes) {
        const entry = store.forecasts.get(hash);
        if (!entry.ok || entry.value === null) continue;
        // One after the other: each may be read whole.
        // oxlint-disable-next-line no-await-in-loop
        const looked = await lookedInto(store, entry.value);
        if (looked.ok) all.push(looked.value);
      }
      return hoursTogether(all);
    },
  };
}

/** The hours of a file, read from it the first time and kept beside it. */
async function lookedInto({ forecasts }: Store, entry: StoredForecast): Promise<Result<ForecastHours | null>> {
  const kept = hoursOfSummary(entry.summaryJson);
  if (kept !== undefined) return ok(kept);
  const bytes = await forecasts.read(entry.hash);
  if (!bytes.ok) return bytes;
  const hours = hoursOfFile(bytes.value ?? new Uint8Array(), entry.fileName);
  if (hours.ok) forecasts.summarise(entry.hash, hoursSummary(hours.value));
  return hours;
}

/** An estimate that takes longer is no use to anybody. */
const ESTIMATE_MS = 60_000;

function chosenOf(asked: FetchAsked, nowEpochMs: number): Result<Chosen> {
  const limits = limitsOf(asked.mostKbPerS);
  if (!limits.ok) return limits;
  if (asked.sourceId === '') return ofAddress(asked.address.trim(), limits.value);
  const source = BUILT_IN_SOURCES.find(({ id }) => id === asked.sourceId);
  if (source === undefined) return failed(noSource(asked.sourceId));
  const cycle = parseCycle(asked.cycle.trim() === '' ? 'latest' : asked.cycle.trim(), source, nowEpochMs);
  if (!cycle.ok) return cycle;
  const orNull = (text: string): string | null => (text.trim() === '' ? null : text.trim());
  const targets = planTargets(source, {
    cycleEpochMs: cycle.value,
    steps: orNull(asked.steps),
    quantities: orNull(asked.quantities),
    members: orNull(asked.members),
  });
  if (!targets.ok) return targets;
  const name = `${source.id}-${new Date(cycle.value).toISOString().slice(0, 13)}Z`;
  const { attribution } = source;
  return ok({ name, attribution, credit: creditOf(source), targets: targets.value, limits: limits.value });
}

function ofAddress(address: string, limits: FetchLimits): Result<Chosen> {
  const target = wholeFileTarget(address);
  if (!target.ok) return target;
  const last = new URL(address).pathname.split('/').findLast((part) => part !== '');
  return ok({ name: last ?? 'forecast', attribution: '', credit: null, targets: [target.value], limits });
}

function limitsOf(text: string): Result<FetchLimits> {
  if (text.trim() === '') return ok(DEFAULT_LIMITS);
  const kbPerS = Number(text.trim());
  if (Number.isFinite(kbPerS) && kbPerS > 0) return ok({ ...DEFAULT_LIMITS, mostOctetsPerS: kbPerS * 1000 });
  return failed({
    code: 'fetch.rate',
    where: 'kB a second',
    what: `"${text}" is no rate.`,
    expected: 'kB a second, more than 0; nothing for no cap',
    remedy: 'Write a number, such as 20.',
  });
}

const noSource = (id: string): Problem => ({
  code: 'fetch.no-such-source',
  where: 'source',
  what: `There is no source "${id}".`,
  expected: BUILT_IN_SOURCES.map((source) => source.id).join(', '),
  remedy: 'Choose one of the list, or give an address.',
});

const underWay = (name: string): Problem => ({
  code: 'fetch.under-way',
  where: 'fetch',
  what: `${name} is being fetched.`,
  expected: 'one fetch at a time',
  remedy: 'Wait until it is there, or stop it.',
});
