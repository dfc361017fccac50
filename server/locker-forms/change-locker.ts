import type { PassageFile } from '../../lib/passage/index.ts';
import { lockerLineFile, toLockerFile } from '../../lib/passage/index.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import { readShape } from '../../lib/shape/index.ts';
import {
  barsOf,
  cutPlan,
  cutRequestOf,
  cuttingFile,
  type CutPlan,
  type CuttingFile,
  type Locker,
  type LockerItem,
  LOCKER_ITEM_DEFAULTS,
  PIECES,
} from '../../lib/stock/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { ITEM_FIELDS, PIECE_FIELDS } from './locker-fields.ts';

type Texts = ReadonlyMap<string, string>;
type Lines = NonNullable<PassageFile['locker']>;

/** The passage with a line of the locker as its form says; an index behind the last adds one. */
export function withItem(file: PassageFile, index: number, texts: Texts): Result<PassageFile> {
  const lines: Lines = [...(file.locker ?? [])];
  const entry = entryOf(ITEM_FIELDS, lines[index], texts);
  const read = readShape(lockerLineFile, entry, { where: 'passage', path: ['locker', index] });
  if (!read.ok) return read;
  lines[Math.min(index, lines.length)] = read.value;
  return ok({ ...file, locker: lines });
}

export const withoutItem = (file: PassageFile, index: number): Result<PassageFile> =>
  ok({ ...file, locker: (file.locker ?? []).filter((_, k) => k !== index) });

/** The passage with another locker, such as one read from a table. */
export const withLocker = (file: PassageFile, locker: Locker): PassageFile => ({
  ...file,
  locker: toLockerFile(locker),
});

/** The passage with a piece to cut as its form says; an index behind the last adds one. */
export function withPiece(file: PassageFile, index: number, texts: Texts): Result<PassageFile> {
  const pieces: unknown[] = [...(file.cutting?.pieces ?? [])];
  pieces[Math.min(index, pieces.length)] = entryOf(PIECE_FIELDS, file.cutting?.pieces[index], texts);
  return withCutting(file, { ...file.cutting, pieces });
}

export function withoutPiece(file: PassageFile, index: number): Result<PassageFile> {
  const { cutting, ...others } = file;
  const pieces = (cutting?.pieces ?? []).filter((_, k) => k !== index);
  return pieces.length === 0 ? ok(others) : withCutting(file, { ...cutting, pieces });
}

/** The passage with nothing to cut. */
export function withoutCutting(file: PassageFile): PassageFile {
  const { cutting: _, ...others } = file;
  return others;
}

/** The passage with what the saw takes. */
export const withKerf = (file: PassageFile, text: string): Result<PassageFile> =>
  withCutting(file, {
    ...file.cutting,
    kerfMm: /^\d+([.,]\d+)?$/.test(text.trim()) ? Number(text.replace(',', '.')) : text,
  });

function withCutting(file: PassageFile, cutting: unknown): Result<PassageFile> {
  const read = readShape(cuttingFile, cutting, { where: 'passage', path: ['cutting'], codeWord: 'cut' });
  return read.ok ? ok({ ...file, cutting: read.value }) : read;
}

/** What the wanted pieces are cut from, by the bars there are. */
export const cutPlanOf = (cutting: CuttingFile, locker: Locker): CutPlan =>
  cutPlan(cutRequestOf(cutting, barsOf(locker)));

/** The locker once the plan is sawn: bars that are cut go out, left-overs worth keeping come in. */
export function lockerAfterCut(locker: Locker, plan: CutPlan): Locker {
  const cutCountOf = (line: LockerItem): number =>
    plan.bars.filter(({ stockId }) => stockId === barsOf({ items: [line] })[0]?.id).length;
  const left = locker.items
    .map((line) => ({ ...line, onBoardAmount: line.onBoardAmount - (line.kind === 'bar' ? cutCountOf(line) : 0) }))
    .filter((line) => line.kind !== 'bar' || line.onBoardAmount > 0);
  return { items: plan.bars.filter(({ isLeftOverUseful }) => isLeftOverUseful).reduce(withOffCut(locker), left) };
}

type PlannedBar = CutPlan['bars'][number];

/** One left-over more, with those of its size and item. */
const withOffCut =
  (locker: Locker) =>
  (items: readonly LockerItem[], bar: PlannedBar): readonly LockerItem[] => {
    const of = locker.items.find((line) => barsOf({ items: [line] })[0]?.id === bar.stockId);
    const size = { lengthMm: bar.leftOverMm, diameterMm: bar.diameterMm };
    const same = items.find(
      (line) => line.item === of?.item && line.lengthMm === size.lengthMm && line.diameterMm === size.diameterMm,
    );
    if (same !== undefined)
      return items.map((line) => (line === same ? { ...line, onBoardAmount: line.onBoardAmount + 1 } : line));
    const place = of?.place ?? null;
    return [
      ...items,
      {
        ...LOCKER_ITEM_DEFAULTS,
        item: of?.item ?? 'off-cut',
        kind: 'bar',
        unit: PIECES,
        onBoardAmount: 1,
        place,
        ...size,
      },
    ];
  };
