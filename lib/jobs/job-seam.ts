import { ok, okUnless, type Problem, type Result } from '../result/index.ts';
import { needleCount, STITCH_RATES, twineM } from '../stock/index.ts';
import type { Job, JobSeam, MaterialNeed } from './job.ts';
import type { JobFile } from './job-file.ts';
import { unknownName } from './unknown-name.ts';

const DEFAULTS = { lengthM: 1, rowCount: 1, cloth: 'tough-laminate' } as const;

/** Whether a file says anything of the seam itself. */
export const saysSeam = ({ lengthM, rows, cloth, seamStep }: JobFile): boolean =>
  [lengthM, rows, cloth, seamStep].some((figure) => figure !== undefined);

/**
 * The seam of a job that sews: of the file over that of the library; 1 m, one row, tough laminate where neither says.
 *
 * @returns the seam, null where the job sews none, `jobs.no-seam`, `jobs.cloth-unknown`
 */
export function seamOf(file: JobFile, base: Job | null, where: string): Result<JobSeam | null> {
  const under = base?.seam ?? null;
  const stepId = file.seamStep === undefined ? (under?.stepId ?? null) : file.seamStep;
  if (stepId === null) return okUnless(withoutSeam(file, base, where), () => null);
  const { lengthM, rowCount, cloth } = { ...DEFAULTS, ...under, ...ownFigures(file) };
  const known = STITCH_RATES.map((rate) => rate.cloth);
  if (known.includes(cloth)) return ok({ stepId, lengthM, rowCount, cloth });
  const of = { code: 'jobs.cloth-unknown', kind: 'cloth', name: cloth, known };
  return { ok: false, problems: [unknownName(of, `${where}.cloth`)] };
}

const ownFigures = ({ lengthM, rows, cloth }: JobFile): Partial<Omit<JobSeam, 'stepId'>> => ({
  ...(lengthM === undefined ? {} : { lengthM }),
  ...(rows === undefined ? {} : { rowCount: rows }),
  ...(cloth === undefined ? {} : { cloth }),
});

/** Figures of a seam for a job without one; a library job that is not known is told elsewhere. */
function withoutSeam(file: JobFile, base: Job | null, where: string): readonly Problem[] {
  if (base === null && file.from !== undefined) return [];
  const given = (['lengthM', 'rows', 'cloth'] as const).filter((key) => file[key] !== undefined);
  return given.map((key) => noSeam(file, `${where}.${key}`));
}

const TWINE = 'waxed twine';
const NEEDLES = 'needles';

const isOfSeam = ({ item }: MaterialNeed): boolean => item === TWINE || item === NEEDLES;

/** What a sewing step takes: twine and needles by its seam where the file says something of it, or nobody counted them. */
export function withSeamMaterials(
  materials: readonly MaterialNeed[],
  seam: JobSeam,
  file: JobFile,
): readonly MaterialNeed[] {
  if (!saysSeam(file) && materials.some(isOfSeam)) return materials;
  return [
    { item: TWINE, amount: Math.round(twineM(seam) * 10) / 10, unit: 'm' },
    { item: NEEDLES, amount: needleCount(seam), unit: 'pieces' },
    ...materials.filter((need) => !isOfSeam(need)),
  ];
}

const noSeam = (file: JobFile, where: string): Problem => ({
  code: 'jobs.no-seam',
  where,
  what: file.from === undefined ? 'An own job has no seam.' : `The library job "${file.from}" has no seam.`,
  expected: 'a seam only on jobs that are sewn, such as stitch-tear',
  remedy: 'Take it out, and give the minutes instead.',
});
