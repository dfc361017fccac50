/** The ratios kept with the program: measured on a machine that had nothing else to do. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type BenchCase, isPartName, PART_NAMES, type PartName } from './bench-case.ts';
import type { KeptRatio, KeptRatios } from './compare.ts';

const RATIOS_PATH = fileURLToPath(new URL('ratios.json', import.meta.url));

/** Names of cases without a ratio, by part; the file says them, so that none is missed in silence. */
export type Unmeasured = Readonly<Partial<Record<PartName, readonly string[]>>>;

export interface RatiosFile {
  readonly ratios: KeptRatios;
  readonly unmeasured: Unmeasured;
}

/** Throws where the file is not what `writeRatios` writes. */
export function readRatios(path = RATIOS_PATH): RatiosFile {
  const file: unknown = JSON.parse(readFileSync(path, 'utf8'));
  if (!isRecord(file) || !isRecord(file['ratios'])) throw new Error(`${path} holds no ratios`);
  const parts = Object.entries(file['ratios']).map(([part, cases]) => {
    if (!isPartName(part) || !isRecord(cases)) throw new Error(`${path}: ${part} is no part of the benchmark`);
    return { part, cases: Object.entries(cases) };
  });
  return {
    ratios: Object.fromEntries(parts.map(({ part, cases }) => [part, Object.fromEntries(cases.flatMap(keptEntry))])),
    unmeasured: byPart(
      parts.map(({ part, cases }) => [part, cases.flatMap(([name, of]) => (of === null ? [name] : []))]),
    ),
  };
}

const keptEntry = ([name, ratio]: [string, unknown]): [string, KeptRatio][] =>
  ratio === null ? [] : [[name, keptRatio(name, ratio)]];

/** Parts of which all is measured are left out. */
const byPart = (parts: readonly (readonly [PartName, readonly string[]])[]): Unmeasured =>
  Object.fromEntries<readonly string[]>(parts.filter(([, names]) => names.length > 0));

function keptRatio(name: string, ratio: unknown): KeptRatio {
  const { costRatio, spreadShare } = isRecord(ratio) ? ratio : {};
  if (typeof costRatio !== 'number' || !(costRatio > 0)) throw new Error(`${name}: no ratio is kept`);
  if (typeof spreadShare !== 'number' || !(spreadShare >= 0)) throw new Error(`${name}: no spread is kept`);
  return { costRatio, spreadShare };
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

interface WriteOptions {
  readonly kept: KeptRatios;
  /** All cases there are: ratios of others are left out. */
  readonly caseNames: (part: PartName) => readonly string[];
  readonly nowEpochMs: number;
  readonly path?: string;
}

/**
 * Puts the ratios of what was measured in the place of the kept ones; those of cases that were not measured stay.
 *
 * @returns what no ratio is kept of
 */
export function writeRatios(
  measured: ReadonlyMap<PartName, readonly BenchCase[]>,
  { kept, caseNames, nowEpochMs, path = RATIOS_PATH }: WriteOptions,
): Unmeasured {
  const now = (part: PartName): Readonly<Record<string, KeptRatio>> => ({
    ...kept[part],
    ...Object.fromEntries((measured.get(part) ?? []).map(keptOf)),
  });
  const ratios = PART_NAMES.map((part) => {
    const all = now(part);
    return [part, Object.fromEntries(caseNames(part).map((name) => [name, all[name] ?? null]))] as const;
  });
  const file = {
    about:
      'Ours over the reference of the same run, and the spread of the rounds; null: not measured yet. Written by npm run bench -- --write-ratios',
    writtenUtc: new Date(nowEpochMs).toISOString(),
    node: process.version,
    ratios: Object.fromEntries(ratios),
  };
  writeFileSync(path, `${JSON.stringify(file, null, 2)}\n`);
  return byPart(ratios.map(([part, of]) => [part, Object.keys(of).filter((name) => of[name] === null)]));
}

const keptOf = ({ name, costRatio, spreadShare }: BenchCase): [string, KeptRatio] => [
  name,
  { costRatio: Number(costRatio.toPrecision(4)), spreadShare: Number(spreadShare.toPrecision(2)) },
];
