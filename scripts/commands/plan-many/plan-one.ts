/** One passage of many: planned and written, or left as it is because that very plan is there. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { formatProblem, type Problem } from '../../../lib/result/index.ts';
import { replaceFile } from '../replace-file.ts';
import { FILE_ENDINGS } from './file-names.ts';
import type { FoundPassage } from './find-passages.ts';
import { type HashOf, hashesOnce, type MadeOf, madeOf, type PlanSettings, sha256 } from './made-of.ts';
import { type EndedProcess, planInProcess } from './plan-process.ts';

/** What became of a passage. */
export interface PassageOutcome {
  readonly name: string;
  readonly passage: string;
  /** `kept`: a plan made of the same is there already. `stopped`: the command was ended before it. */
  readonly state: 'planned' | 'kept' | 'failed' | 'stopped';
  /** File with the plan; null: none of these inputs. */
  readonly plan: string | null;
  /** Of planning, when it was done; null: it was not. */
  readonly tookMs: number | null;
  readonly processorMs: number | null;
  readonly peakOctets: number | null;
  /** Problems, one a line; of a plan: what of its forecast could not be used. */
  readonly said: readonly string[];
}

/** Kept beside each plan. */
interface PlanRecord extends Pick<PassageOutcome, 'passage' | 'tookMs' | 'processorMs' | 'peakOctets' | 'said'> {
  readonly madeOf: MadeOf;
  /** Hash of the plan; null: there is none. */
  readonly planSha256: string | null;
}

export interface PlanOneOptions {
  readonly settings: PlanSettings;
  readonly outFolder: string;
  /** Plans anew what is there. */
  readonly again: boolean;
  readonly hashOf: HashOf;
  readonly programSha256: string;
  readonly beganUtc: string;
  readonly signal: AbortSignal;
}

/** Plans a passage unless it is done; every failure becomes an outcome. */
export async function planOne({ name, file }: FoundPassage, options: PlanOneOptions): Promise<PassageOutcome> {
  const inputs = await madeOf(file, options.settings, options);
  const [planFile, recordFile] = [FILE_ENDINGS.plan, FILE_ENDINGS.record].map((ending) =>
    join(options.outFolder, `${name}${ending}`),
  );
  if (planFile === undefined || recordFile === undefined) throw new Error('two files are named');
  const base = { name, passage: file };
  const kept = options.again ? null : await recordOf(recordFile, planFile, inputs);
  if (kept !== null) return { ...base, state: 'kept', plan: planFile, ...figuresOf(kept) };
  const ended = await planInProcess(file, inputs, options.signal);
  if (ended.code === null && options.signal.aborted) return stoppedOutcome({ name, file });
  const figures = figuresOfProcess(ended);
  const record = { passage: file, madeOf: inputs, planSha256: null, ...figures };
  if (ended.code !== 0) {
    const said = [...figures.said, ...(ended.code === null ? [formatProblem(endedFromOutside(file, ended))] : [])];
    const unwritten = await writeRecord(recordFile, { ...record, said });
    return { ...base, state: 'failed', plan: null, ...figures, said: [...said, ...unwritten] };
  }
  if ((await hashesOnce()(file)) !== inputs.passageSha256) {
    const said = [...figures.said, formatProblem(changedMeanwhile(file))];
    return { ...base, state: 'failed', plan: null, ...figures, said };
  }
  const unwritten = await replaceFile(planFile, ended.plan);
  const recorded =
    unwritten.length > 0
      ? unwritten.map(formatProblem)
      : await writeRecord(recordFile, { ...record, planSha256: sha256(ended.plan) });
  const state = recorded.length === 0 ? 'planned' : 'failed';
  return {
    ...base,
    state,
    plan: unwritten.length === 0 ? planFile : null,
    ...figures,
    said: [...figures.said, ...recorded],
  };
}

/** Of a passage whose planning was stopped, or never begun. */
export const stoppedOutcome = ({ name, file }: FoundPassage): PassageOutcome => ({
  name,
  passage: file,
  state: 'stopped',
  plan: null,
  tookMs: null,
  processorMs: null,
  peakOctets: null,
  said: [],
});

type Figures = Pick<PassageOutcome, 'tookMs' | 'processorMs' | 'peakOctets' | 'said'>;

const figuresOf = ({ tookMs, processorMs, peakOctets, said }: Figures): Figures => ({
  tookMs,
  processorMs,
  peakOctets,
  said,
});

const figuresOfProcess = ({ tookMs, usage, said }: EndedProcess): Figures => ({
  tookMs: Math.round(tookMs),
  processorMs: usage === null ? null : Math.round(usage.processorMs),
  peakOctets: usage?.peakOctets ?? null,
  said,
});

/** The record of a plan made of the same, which is there to the letter; null: it has to be made. */
async function recordOf(recordFile: string, planFile: string, inputs: MadeOf): Promise<PlanRecord | null> {
  try {
    const record: unknown = JSON.parse(await readFile(recordFile, 'utf8'));
    if (!isRecord(record) || record.planSha256 === null) return null;
    // Written by this very program, which is part of what is compared, so keys stand in the same order.
    if (JSON.stringify(record.madeOf) !== JSON.stringify(inputs)) return null;
    return record.planSha256 === sha256(await readFile(planFile)) ? record : null;
  } catch {
    return null;
  }
}

const isRecord = (value: unknown): value is PlanRecord =>
  typeof value === 'object' && value !== null && 'madeOf' in value && 'planSha256' in value && 'said' in value;

const writeRecord = async (file: string, record: PlanRecord): Promise<string[]> =>
  (await replaceFile(file, `${JSON.stringify(record, null, 2)}\n`)).map(formatProblem);

const endedFromOutside = (file: string, { signal }: EndedProcess): Problem => ({
  code: 'plan-many.ended',
  where: file,
  what: `The process that planned it was ended from outside (${signal ?? 'no signal'}).`,
  expected: 'a process that ends by itself',
  remedy:
    'If the machine ran out of memory, plan fewer at once (--parallel), or cut the forecast (slatch forecast cut).',
});

const changedMeanwhile = (file: string): Problem => ({
  code: 'plan-many.changed',
  where: file,
  what: 'The passage was changed while it was planned.',
  expected: 'a file that stays as it is until its plan is there',
  remedy: 'Give the same command again: only what is missing is planned.',
});
