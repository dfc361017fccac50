import { damageJobs, sailDropOf } from '../../lib/jobs/index.ts';
import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { assessDamage, damageCaseFile, type DamageCaseFile } from '../../lib/sail/index.ts';
import { readShape } from '../../lib/shape/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { SAIL_FIELDS, TEAR_FIELDS } from './sail-fields.ts';

type Texts = ReadonlyMap<string, string>;

/** Path of a sail in the passage. */
export const sailPlace = (index: number): string => `sails[${index}]`;

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The passage with a sail as its form says; an index behind the last adds one. */
export function withSail(file: PassageFile, index: number, texts: Texts): Result<PassageFile> {
  const before = file.sails?.[index];
  const sail = entryOf(SAIL_FIELDS, before?.sail, texts);
  return withCase(file, index, { ...before, sail: withBattenStates(sail, texts) });
}

/** States of battens by their selects; a batten without one is whole. */
function withBattenStates(sail: Readonly<Record<string, unknown>>, texts: Texts): Readonly<Record<string, unknown>> {
  const battens = isRecord(sail['battens']) ? sail['battens'] : null;
  if (battens === null) return sail;
  const said = [...texts].flatMap(([name, state]) => {
    const [, number] = /^batten\.(\d+)$/.exec(name) ?? [];
    return number === undefined || state === '' ? [] : [{ batten: Number(number), state }];
  });
  if (![...texts.keys()].some((name) => name.startsWith('batten.'))) return sail;
  const { states: _, ...others } = battens;
  return { ...sail, battens: said.length === 0 ? others : { ...others, states: said } };
}

/** The passage with a tear of a sail as its form says; an index behind the last adds one. */
export function withTear(file: PassageFile, at: { sail: number; tear: number }, texts: Texts): Result<PassageFile> {
  const before = file.sails?.[at.sail];
  if (before === undefined) return failed(gone(at.sail));
  const damage: unknown[] = [...(before.damage ?? [])];
  damage[Math.min(at.tear, damage.length)] = entryOf(TEAR_FIELDS, before.damage?.[at.tear], texts);
  return withCase(file, at.sail, { ...before, damage });
}

export function withoutSail(file: PassageFile, index: number): Result<PassageFile> {
  const { sails = [], ...others } = file;
  const left = sails.filter((_, k) => k !== index);
  return ok(left.length === 0 ? others : { ...others, sails: left });
}

export function withoutTear(file: PassageFile, at: { sail: number; tear: number }): Result<PassageFile> {
  const before = file.sails?.[at.sail];
  if (before === undefined) return failed(gone(at.sail));
  const { damage = [], ...sail } = before;
  const left = damage.filter((_, k) => k !== at.tear);
  return withCase(file, at.sail, left.length === 0 ? sail : { ...sail, damage: left });
}

function withCase(file: PassageFile, index: number, entry: unknown): Result<PassageFile> {
  const read = readShape(damageCaseFile, entry, { where: 'passage', path: ['sails', index] });
  if (!read.ok) return read;
  const sails: DamageCaseFile[] = [...(file.sails ?? [])];
  sails[Math.min(index, sails.length)] = read.value;
  return ok({ ...file, sails });
}

/** What is asked of a tear's jobs. */
export interface TearJobs {
  readonly sail: number;
  readonly tear: number;
  readonly isBelow: boolean;
}

/**
 * The passage with the jobs of a tear: between the drop and the hoist of its jobs where it has them.
 *
 * @returns the passage and the id of the sewing, or that the tear is gone
 */
export function withTearJobs(
  file: PassageFile,
  passage: Passage,
  asked: TearJobs,
): Result<{ readonly file: PassageFile; readonly jobId: string }> {
  const found = passage.sails[asked.sail];
  const report = found === undefined ? null : assessDamage(found, sailPlace(asked.sail));
  const tear = report?.ok === true ? report.value.tears[asked.tear] : undefined;
  if (tear === undefined) return failed(gone(asked.sail));
  const jobs = file.jobs ?? [];
  const drop = sailDropOf(passage.jobs, passage.boat.sailStates);
  const id = freeId(`sew-${tear.tear.id}`, jobs);
  const added = damageJobs(tear.stitch, {
    id,
    isBelow: asked.isBelow,
    after: drop === null ? [] : [drop.drop.id],
    priority: 9,
  });
  const last = added.at(-1)?.id ?? id;
  const kept = jobs.map((job) =>
    job.id === drop?.hoist?.id ? { ...job, after: [...new Set([...(job.after ?? []), last])] } : job,
  );
  return ok({ file: { ...file, jobs: [...kept, ...added] }, jobId: id });
}

function freeId(wanted: string, jobs: readonly { readonly id: string }[]): string {
  let id = wanted;
  for (let count = 2; jobs.some((job) => job.id === id); count++) id = `${wanted}-${count}`;
  return id;
}

const gone = (index: number): Problem => ({
  code: 'damage.gone',
  where: sailPlace(index),
  what: 'This sail or tear is not in the passage any more.',
  expected: 'a sail of the passage',
  remedy: 'Look at the list of sails.',
});
