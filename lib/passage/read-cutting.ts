import { okUnless } from '../result/index.ts';
import { cutProblems, cuttingFile, type CuttingFile } from '../stock/index.ts';
import { problemsInside } from './problems-inside.ts';
import type { Reader } from './reader.ts';

/** What a passage wants cut; null: nothing, or it could not be read. */
export function readCutting(reader: Reader): CuttingFile | null {
  if (!('cutting' in reader.raw)) return null;
  const shape = reader.part(cuttingFile, 'cutting', undefined);
  const place = reader.place('cutting');
  return shape && reader.keep(okUnless(problemsInside(cutProblems(shape, place), place), () => shape));
}
