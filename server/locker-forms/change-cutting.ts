import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { readShape } from '../../lib/shape/index.ts';
import { cuttingFile } from '../../lib/stock/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { figureOf } from '../presenters/job-field.ts';
import { goneEntry } from './change-locker.ts';
import { PIECE_FIELDS } from './locker-fields.ts';

type Texts = ReadonlyMap<string, string>;

/** The passage with a piece to cut as its form says; an index behind the last adds one. */
export function withPiece(file: PassageFile, index: number, texts: Texts): Result<PassageFile> {
  const pieces: unknown[] = [...(file.cutting?.pieces ?? [])];
  const entry = entryOf(PIECE_FIELDS, pieces[index], texts);
  const unread = zoneProblems(entry['noJoinZonesMm'], `passage, cutting.pieces[${index}].noJoinZonesMm`);
  const { noJoinZonesMm: _, ...others } = entry;
  pieces[Math.min(index, pieces.length)] = unread.length === 0 ? entry : others;
  const changed = withCutting(file, { ...file.cutting, pieces });
  const [first, ...rest] = [...unread, ...(changed.ok ? [] : changed.problems)];
  return first === undefined ? changed : failed(first, ...rest);
}

/** Spans that are not two numbers; what is wrong with numbers is found by the check. */
function zoneProblems(zones: unknown, where: string): readonly Problem[] {
  const list: readonly unknown[] = Array.isArray(zones) ? zones : [];
  return list.flatMap((zone) => {
    const ends: readonly unknown[] = Array.isArray(zone) ? zone : [zone];
    if (ends.length === 2 && ends.every((end) => typeof end === 'number')) return [];
    return [
      {
        code: 'cut.zone-unread',
        where,
        what: `“${ends.join('-')}” is no span.`,
        expected: 'from–to in mm, spans parted by commas, decimals with a point',
        remedy: 'Write it such as 700-1500.',
      },
    ];
  });
}

/** The passage without a piece; without its last it cuts nothing, and what the saw takes goes too. */
export function withoutPiece(file: PassageFile, index: number): Result<PassageFile> {
  const { cutting, ...others } = file;
  const pieces = cutting?.pieces ?? [];
  if (pieces[index] === undefined) return failed(goneEntry(`cutting.pieces[${index}]`, 'piece to cut'));
  if (pieces.length === 1) return ok(others);
  return withCutting(file, { ...cutting, pieces: pieces.filter((_, k) => k !== index) });
}

/** The passage with what the saw takes; an empty text is the default. */
export function withKerf(file: PassageFile, text: string): Result<PassageFile> {
  const { kerfMm: _, ...cutting } = file.cutting ?? { pieces: [] };
  const kerfMm = figureOf(text.trim());
  return withCutting(file, kerfMm === undefined ? cutting : { kerfMm, ...cutting });
}

function withCutting(file: PassageFile, cutting: unknown): Result<PassageFile> {
  const read = readShape(cuttingFile, cutting, { where: 'passage', path: ['cutting'], codeWord: 'cut' });
  return read.ok ? ok({ ...file, cutting: read.value }) : read;
}
