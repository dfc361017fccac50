import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { utcOfShipTime } from '../presenters/ship-time.ts';
import { EVERY_JOB } from './order-fields.ts';

/** Forbidden hours as the file has them. */
export type ForbiddenSpan = NonNullable<PassageFile['forbidden']>[number];

/** The forbidden hours a job has to keep: its own, and those of every job. */
export const forbiddenOf = (file: PassageFile, jobId: string): readonly ForbiddenSpan[] =>
  (file.forbidden ?? []).filter(({ job }) => job === undefined || job === jobId);

/** The passage with hours in which this job, or every job, is not worked; they stand last. */
export function withForbidden(file: PassageFile, jobId: string, texts: ReadonlyMap<string, string>): PassageFile {
  const offsetMin = file.settings?.shipTimeOffsetMin ?? 0;
  const utc = (name: string): string => utcOfShipTime(texts.get(name)?.trim() ?? '', offsetMin);
  const whose = texts.get('job') === EVERY_JOB ? {} : { job: jobId };
  return {
    ...file,
    forbidden: [...(file.forbidden ?? []), { fromUtc: utc('fromUtc'), toUtc: utc('toUtc'), ...whose }],
  };
}

/** The passage without forbidden hours, which are known by all they say; without any the key goes too. */
export function withoutForbidden(file: PassageFile, span: ForbiddenSpan): Result<PassageFile> {
  const { forbidden = [], ...rest } = file;
  const index = forbidden.findIndex(
    ({ fromUtc, toUtc, job }) => fromUtc === span.fromUtc && toUtc === span.toUtc && job === span.job,
  );
  if (index < 0) return failed(goneSpan);
  const left = forbidden.filter((_, k) => k !== index);
  return ok(left.length === 0 ? rest : { ...rest, forbidden: left });
}

const goneSpan: Problem = {
  code: 'passage.entry-gone',
  where: 'forbidden',
  what: 'These forbidden hours are not in the passage any more.',
  expected: 'hours that are there',
  remedy: 'Look at the list.',
};
