import { readinessOf } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import {
  cutSheet,
  freeAmount,
  itemKey,
  lockerChanges,
  type CutPlan,
  type Locker,
  type LockerChange,
  type LockerItem,
  PIECES,
  type SheetSection,
} from '../../lib/stock/index.ts';
import { textsOf } from '../entry-forms/index.ts';
import { cutPlanOf, ITEM_FIELDS, lockerAfterCut, PIECE_FIELDS } from '../locker-forms/index.ts';
import { barDrawings, type BarDrawing } from './bar-drawing.ts';
import type { Clock } from './clock.ts';
import { type EntryPage, entryPage } from './damage-page.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { readinessViews } from './job-readiness.ts';
import { versionText } from './notices.ts';
import { timeTexts } from './time-texts.ts';

export type LockerPages = LockerPage | EntryPage;

/** What is on board, what jobs take of it, and what is cut from its bars. */
export interface LockerPage {
  readonly kind: 'locker';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  readonly rows: readonly LockerRow[];
  /** What jobs lack, with what can be done. */
  readonly lacking: readonly { readonly jobId: string; readonly jobName: string; readonly texts: readonly string[] }[];
  /** A table pasted: its text, what it would change, what is wrong with it. */
  readonly table: TableView;
  readonly cutting: CuttingView;
}

export interface LockerRow {
  readonly index: number;
  readonly item: string;
  readonly kind: string;
  readonly onBoard: string;
  readonly keep: string;
  /** What may be taken. */
  readonly free: string;
  /** Jobs that take of it. */
  readonly takenBy: readonly { readonly jobId: string; readonly text: string }[];
  readonly where: string;
}

export interface TableView {
  readonly text: string;
  readonly changes: readonly string[] | null;
  readonly problems: readonly Problem[];
}

export interface CuttingView {
  readonly pieces: readonly { readonly index: number; readonly text: string }[];
  readonly kerf: string;
  readonly sheet: readonly SheetSection[];
  readonly bars: readonly BarDrawing[];
  /** What sawing it changes in the locker. */
  readonly afterCut: readonly string[];
}

const NO_TABLE: TableView = { text: '', changes: null, problems: [] };

export function lockerPage(document: JobDocument, nowEpochMs: number, table: TableView = NO_TABLE): LockerPage {
  const { passage } = document;
  return {
    kind: 'locker',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    rows: passage.locker.items.map((line, index) => rowOf(line, index, passage)),
    lacking: lackingOf(passage),
    table,
    cutting: cuttingView(document),
  };
}

const plain = (amount: number): string => String(Math.round(amount * 100) / 100);

const amountText = (amount: number, unit: string): string =>
  `${plain(amount)} ${amount === 1 && unit === PIECES ? 'piece' : unit}`;

function rowOf(line: LockerItem, index: number, passage: Passage): LockerRow {
  const size = line.lengthMm === null ? '' : ` ${line.diameterMm ?? ''} mm thick, ${line.lengthMm} mm`;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const from = line.readyEpochMs === null ? '' : `not before ${times.full(line.readyEpochMs)}`;
  return {
    index,
    item: `${line.item}${size}`,
    kind: line.kind,
    onBoard: amountText(line.onBoardAmount, line.unit),
    keep: line.keepAmount === 0 ? '' : plain(line.keepAmount),
    free: line.kind === 'tool' ? '' : plain(freeAmount(line)),
    takenBy: line.kind === 'tool' ? [] : takersOf(line.item, passage),
    where: [line.place ?? '', from].filter((text) => text !== '').join('; '),
  };
}

/** What open jobs take of an item. */
function takersOf(item: string, { jobs, orders }: Passage): LockerRow['takenBy'] {
  return jobs
    .filter(({ id }) => orders.jobs.get(id)?.isDone !== true)
    .flatMap((job) => {
      const needs = job.steps
        .flatMap(({ materials }) => materials)
        .filter((need) => itemKey(need.item) === itemKey(item));
      const amount = needs.reduce((sum, need) => sum + need.amount, 0);
      return needs.length === 0
        ? []
        : [{ jobId: job.id, text: `${amountText(amount, needs[0]?.unit ?? '')}: ${job.name}` }];
    });
}

/** Jobs that cannot be begun with what is on board, and why. */
function lackingOf(passage: Passage): LockerPage['lacking'] {
  const views = readinessViews(passage, timeTexts(passage.settings.shipTimeOffsetMin));
  const status = readinessOf({ jobs: passage.jobs, locker: passage.locker, progress: passage.orders.jobs });
  return status.flatMap(({ jobId, status: of }) => {
    const view = views.get(jobId);
    if (of !== 'not' || view === undefined) return [];
    const texts = view.findings
      .filter(({ effect }) => effect === 'bars')
      .flatMap(({ text, remedies }) => [text, ...remedies]);
    return [{ jobId, jobName: passage.jobs.find(({ id }) => id === jobId)?.name ?? jobId, texts }];
  });
}

const SIZE = (change: LockerChange): string =>
  change.lengthMm === null ? '' : `, ${change.diameterMm ?? ''} mm thick, ${change.lengthMm} mm long`;

/** What differs between two lockers, a line each. */
export const changeTexts = (before: Locker, after: Locker): readonly string[] =>
  lockerChanges(before, after).map((change) => {
    const amount = (line: LockerItem | null): string =>
      line === null ? '' : amountText(line.onBoardAmount, line.unit);
    const name = `${change.item}${SIZE(change)}`;
    if (change.change === 'added') return `${name}: added, ${amount(change.after)}.`;
    if (change.change === 'taken-out') return `${name}: taken out, ${amount(change.before)}.`;
    const [was, is] = [amount(change.before), amount(change.after)];
    return was === is ? `${name}: changed.` : `${name}: ${was} before, ${is} after.`;
  });

const NO_CUTTING: CuttingView = { pieces: [], kerf: '', sheet: [], bars: [], afterCut: [] };

function cuttingView({ passage, file }: JobDocument): CuttingView {
  const { cutting, locker } = passage;
  if (cutting === null) return NO_CUTTING;
  const plan: CutPlan = cutPlanOf(cutting, locker);
  return {
    pieces: cutting.pieces.map((piece, index) => ({
      index,
      text: `${piece.count ?? 1} × ${piece.id}: ${piece.lengthMm} mm long, ${piece.diameterMm} mm thick${joinsText(piece.maxJoins ?? 0)}`,
    })),
    kerf: file.cutting?.kerfMm === undefined ? '' : String(file.cutting.kerfMm),
    sheet: cutSheet(plan),
    bars: barDrawings(plan),
    afterCut: plan.bars.length === 0 ? [] : changeTexts(locker, lockerAfterCut(locker, plan)),
  };
}

const joinsText = (count: number): string =>
  count === 0 ? '' : `, at most ${count} ${count === 1 ? 'join' : 'joins'}`;

interface Entered {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  readonly refused: { readonly texts: ReadonlyMap<string, string>; readonly problems: readonly Problem[] } | null;
}

/** Form of a line of the locker; an index behind the last is a new one. */
export function itemPage(index: number, entered: Entered): EntryPage {
  const line = entered.document.file.locker?.[index];
  return entryPage(entered, {
    fields: ITEM_FIELDS,
    texts: textsOf(ITEM_FIELDS, line),
    place: `locker[${index}]`,
    title: line === undefined ? 'An item of the locker' : line.item,
    action: `/locker/items/${index}`,
    backHref: '/locker',
    isThere: line !== undefined,
  });
}

/** Form of a piece to cut; an index behind the last is a new one. */
export function piecePage(index: number, entered: Entered): EntryPage {
  const piece = entered.document.file.cutting?.pieces[index];
  return entryPage(entered, {
    fields: PIECE_FIELDS,
    texts: textsOf(PIECE_FIELDS, piece),
    place: `cutting.pieces[${index}]`,
    title: piece === undefined ? 'A piece to cut' : `Piece ${piece.id}`,
    action: `/locker/pieces/${index}`,
    backHref: '/locker#cutting',
    isThere: piece !== undefined,
  });
}
