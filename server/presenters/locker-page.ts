import type { Problem } from '../../lib/result/index.ts';
import { type CutPlan, type CutRequest, type CuttingFile, LOCKER_LIMITS } from '../../lib/stock/index.ts';
import type { Clock } from './clock.ts';
import type { EntryPage } from './entry-page.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { type CuttingView, cuttingView, sawnView, type SawnView } from './locker-cutting.ts';
import { countText, lockerRows, type LockerRows } from './locker-rows.ts';
import { type ShortJob, shortJobs, shortSummary } from './locker-short.ts';
import type { ChangeView } from './locker-words.ts';
import { versionText } from './notices.ts';

/** Any page of the locker. */
export type LockerPages = LockerPage | CutPage | SawnPage | EntryPage | NoLockerPage;

interface Head {
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
}

/** What is on board, what jobs take of it and lack, and what is cut from its bars. */
export interface LockerPage extends Head {
  readonly kind: 'locker';
  readonly summary: string;
  readonly counted: string;
  readonly short: readonly ShortJob[];
  readonly rows: LockerRows;
  readonly table: TableView;
  /** null: nothing is wanted. */
  readonly cutting: CuttingView | null;
  readonly kerf: KerfForm;
  /** There are bars to cut. */
  readonly hasBars: boolean;
}

/** A table to be read in the place of the list. */
export interface TableView {
  readonly text: string;
  /** null: it was not looked at yet, or cannot be read. */
  readonly changes: readonly ChangeView[] | null;
  readonly problems: readonly Problem[];
  readonly mostLineCount: number;
}

/** What the saw takes, as its input shows it. */
export interface KerfForm {
  readonly text: string;
  readonly problems: readonly Problem[];
}

/** The cut sheet alone, to be printed. */
export interface CutPage extends Head {
  readonly kind: 'locker-cut';
  readonly cutting: CuttingView;
}

/** What changes once it is sawn, before it is saved. */
export interface SawnPage extends Head {
  readonly kind: 'locker-sawn';
  readonly sawn: SawnView;
}

/** There is no passage to show a locker of. */
export interface NoLockerPage {
  readonly kind: 'failed';
  readonly problems: readonly Problem[];
}

interface PassageCut {
  readonly cutting: CuttingFile;
  readonly request: CutRequest;
  readonly plan: CutPlan;
}

interface LockerInput {
  readonly document: JobDocument;
  readonly nowEpochMs: number;
  /** null: the passage wants nothing cut. */
  readonly cut: PassageCut | null;
}

interface Entered {
  readonly table?: Pick<TableView, 'text' | 'changes' | 'problems'>;
  readonly kerf?: KerfForm;
}

/** @param entered what was typed and is not saved */
export function lockerPage({ document, nowEpochMs, cut }: LockerInput, entered: Entered = {}): LockerPage {
  const { passage, file } = document;
  const short = shortJobs(passage);
  const rows = lockerRows(passage);
  const kerfMm = file.cutting?.kerfMm;
  return {
    kind: 'locker',
    ...headOf(document, nowEpochMs),
    summary: shortSummary(passage, short),
    counted: countText(rows),
    short,
    rows,
    table: { ...(entered.table ?? NO_TABLE), mostLineCount: LOCKER_LIMITS.mostLineCount },
    cutting: cut === null ? null : cuttingView(cut),
    kerf: entered.kerf ?? { text: kerfMm === undefined ? '' : String(kerfMm), problems: [] },
    hasBars: passage.locker.items.some(({ kind }) => kind === 'bar'),
  };
}

const NO_TABLE = { text: '', changes: null, problems: [] } as const;

const headOf = (document: JobDocument, nowEpochMs: number): Head => ({
  name: document.passage.name,
  clock: documentClock(document.passage, nowEpochMs),
  version: versionText(document),
});

export const cutPage = (document: JobDocument, nowEpochMs: number, cut: PassageCut): CutPage => ({
  kind: 'locker-cut',
  ...headOf(document, nowEpochMs),
  cutting: cuttingView(cut),
});

export const sawnPage = (document: JobDocument, nowEpochMs: number, cut: PassageCut): SawnPage => ({
  kind: 'locker-sawn',
  ...headOf(document, nowEpochMs),
  sawn: sawnView(document.passage, cut),
});
