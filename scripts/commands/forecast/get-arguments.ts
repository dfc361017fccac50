import { basename, join } from 'node:path';
import { didYouMean, failed, okUnless, type Problem, type Result } from '../../../lib/result/index.ts';
import {
  BUILT_IN_SOURCES,
  chosenQuantities,
  DEFAULT_LIMITS,
  type FetchLimits,
  type FetchRequest,
  type FetchTarget,
  type ForecastSource,
  parseCycle,
  planTargets,
  readSource,
  wholeFileTarget,
} from '../../../server/fetchers/index.ts';
import type { CommandIo } from '../command.ts';
import { storeFolder } from '../store-folder.ts';
import { numberOption, type OptionKinds, type TakenApart, WrongUse } from './arguments.ts';

export const GET_OPTIONS: OptionKinds = {
  template: 'text',
  source: 'text',
  templates: 'flag',
  cycle: 'text',
  steps: 'text',
  quantities: 'text',
  members: 'text',
  out: 'text',
  store: 'text',
  estimate: 'flag',
  'rate-kb-per-s': 'text',
  'most-mb': 'text',
  tries: 'text',
  'timeout-s': 'text',
  json: 'flag',
};

/** What is to be fetched, and where from. */
export interface Wish {
  readonly targets: readonly FetchTarget[];
  /** Null: addresses given by the user. */
  readonly source: ForecastSource | null;
  readonly fileName: string;
  readonly mustHold: FetchRequest['mustHold'];
}

const FOR_TEMPLATES = ['cycle', 'steps', 'quantities', 'members'];

/** Targets from the arguments; wrong use throws, what the source has not comes back as problems. */
export async function readWish(given: TakenApart, io: CommandIo): Promise<Result<Wish>> {
  const [template, sourceFile] = [given.texts.get('template'), given.texts.get('source')];
  const givenCount = [template, sourceFile, given.files[0]].filter((one) => one !== undefined).length;
  if (givenCount !== 1) throw new WrongUse('give either URLs, or --template ID, or --source FILE.');
  if (given.files.length > 0) return wishOfAddresses(given);
  const source = await readSourceNamed({ template, sourceFile }, io);
  return source.ok ? wishOfSource(source.value, given, io) : source;
}

function wishOfAddresses(given: TakenApart): Result<Wish> {
  const misplaced = FOR_TEMPLATES.find((name) => given.texts.has(name));
  if (misplaced !== undefined) throw new WrongUse(`--${misplaced} goes with --template or --source.`);
  const targets = given.files.map((url) => wholeFileTarget(url));
  const problems = targets.flatMap((target) => (target.ok ? [] : target.problems));
  return okUnless(problems, () => ({
    targets: targets.flatMap((target) => (target.ok ? [target.value] : [])),
    source: null,
    fileName: nameOf(given.files[0] ?? ''),
    mustHold: [],
  }));
}

/** The last part of an address: what a browser would call the file. */
function nameOf(address: string): string {
  const last = basename(new URL(address).pathname).slice(0, 100);
  return last === '' ? 'forecast.grib2' : last.replace(/\.(bz2|gz)$/, '');
}

async function readSourceNamed(
  { template, sourceFile }: { template: string | undefined; sourceFile: string | undefined },
  io: CommandIo,
): Promise<Result<ForecastSource>> {
  if (sourceFile === undefined) return builtIn(template ?? '');
  try {
    return readSource(new TextDecoder().decode(await io.readFile(sourceFile)), sourceFile);
  } catch (error) {
    return failed(unreadable(sourceFile, error));
  }
}

function builtIn(id: string): Result<ForecastSource> {
  const found = BUILT_IN_SOURCES.find((source) => source.id === id);
  if (found !== undefined) return { ok: true, value: found };
  const ids = BUILT_IN_SOURCES.map((source) => source.id);
  const near = didYouMean(id, ids);
  return failed({
    code: 'source.unknown',
    where: `--template ${id}`,
    what: 'There is no such template.',
    expected: `one of ${ids.join(', ')}`,
    remedy: near === null ? 'See --templates, or describe your own with --source.' : `Did you mean "${near}"?`,
  });
}

const unreadable = (file: string, error: unknown): Problem => ({
  code: 'source.file-unreadable',
  where: file,
  what: `The file cannot be read: ${(error instanceof Error ? error.message : String(error)).replace(/\.$/, '')}.`,
  expected: 'a JSON file that describes a source',
  remedy: 'Check the name and the folder.',
});

function wishOfSource(source: ForecastSource, given: TakenApart, io: CommandIo): Result<Wish> {
  const asked = (name: string): string | null => given.texts.get(name) ?? null;
  const cycle = parseCycle(asked('cycle') ?? 'latest', source, io.nowEpochMs());
  if (!cycle.ok) return cycle;
  const cycleEpochMs = cycle.value;
  const targets = planTargets(source, {
    cycleEpochMs,
    steps: asked('steps'),
    quantities: asked('quantities'),
    members: asked('members'),
  });
  if (!targets.ok) return targets;
  // Only what is named must be there: not every run has all a source may have.
  const mustHold = asked('quantities') === null ? null : chosenQuantities(source, asked('quantities'));
  const hour = new Date(cycleEpochMs).toISOString().slice(0, 13).replaceAll('-', '');
  return {
    ok: true,
    value: {
      targets: targets.value,
      source,
      fileName: `${source.id}-${hour}.grib2`,
      mustHold: mustHold?.ok === true ? mustHold.value : [],
    },
  };
}

export function readLimits(given: TakenApart): FetchLimits {
  const rate = numberOption(given, 'rate-kb-per-s', { least: 0.01, most: 1e6 });
  const mostMb = numberOption(given, 'most-mb', { least: 0.001, most: 20_000 });
  const timeoutS = numberOption(given, 'timeout-s', { least: 1, most: 3600 });
  const tryCount = numberOption(given, 'tries', { least: 1, most: 1000 });
  const timeoutMs = timeoutS === null ? null : timeoutS * 1000;
  return {
    mostOctets: mostMb === null ? DEFAULT_LIMITS.mostOctets : mostMb * 1e6,
    mostOctetsPerS: rate === null ? null : rate * 1000,
    tryCount: Math.round(tryCount ?? DEFAULT_LIMITS.tryCount),
    connectMs: timeoutMs ?? DEFAULT_LIMITS.connectMs,
    idleMs: timeoutMs ?? DEFAULT_LIMITS.idleMs,
  };
}

/** Where it goes: a file, or a store; the server's own unless told. */
export type Goal =
  | { readonly kind: 'file'; readonly path: string; readonly keepFolder: string }
  | { readonly kind: 'store'; readonly folder: string; readonly keepFolder: string };

export function readGoal(given: TakenApart): Goal {
  const [path, folder] = [given.texts.get('out'), given.texts.get('store')];
  if (path !== undefined && folder !== undefined) throw new WrongUse('give either --out or --store.');
  if (path === '') throw new WrongUse('--out needs a name.');
  if (path !== undefined) return { kind: 'file', path, keepFolder: `${path}.partial` };
  const named = storeFolder(given);
  return { kind: 'store', folder: named, keepFolder: join(named, 'partial') };
}
