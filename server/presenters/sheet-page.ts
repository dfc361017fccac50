import { deckSheet, type DeckSheet } from '../../lib/brief/index.ts';
import { type NumberedEntry, passageAfterLog } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import { type Clock, clockOf } from './clock.ts';
import { jobPageHref, sheetHref } from './job-page.ts';
import type { PassageView } from './plan-standing.ts';

/** The deck sheet of one job. */
export interface SheetPage {
  readonly kind: 'sheet';
  /** Of the passage. */
  readonly name: string;
  readonly clock: Clock;
  readonly jobHref: string;
  /** The same as plain text. */
  readonly textHref: string;
  readonly sheet: DeckSheet;
}

interface SheetPageInput {
  readonly view: PassageView;
  readonly passage: Passage;
  readonly log: readonly NumberedEntry[];
  /** When lines of the locker were last counted, by their item; absent: not known. */
  readonly itemsCountedAt?: ReadonlyMap<string, number>;
  readonly jobId: string;
  readonly nowEpochMs: number;
}

/** The sheet of a job by the plan that stands and the passage after its log; problems as `deckSheet` has them. */
function sheetOf(input: SheetPageInput): Result<DeckSheet> {
  const { view, passage, log, itemsCountedAt, jobId } = input;
  const { plan, picture } = view;
  const nowEpochMs = picture.clock === 'fixed' ? picture.nowEpochMs : input.nowEpochMs;
  // With a clock that is held nobody knows what was counted before what was logged.
  const counts = picture.clock === 'live' && itemsCountedAt !== undefined ? { itemsCountedAt } : {};
  const after = passageAfterLog(passage, log, nowEpochMs, counts);
  return deckSheet({ plan, picture, passage: after.passage, jobId, nowEpochMs });
}

export function sheetPage(input: SheetPageInput): Result<SheetPage> {
  const sheet = sheetOf(input);
  if (!sheet.ok) return sheet;
  return ok({
    kind: 'sheet',
    name: input.passage.name,
    clock: clockOf(input.view.picture, input.nowEpochMs),
    jobHref: jobPageHref(input.jobId),
    textHref: `${sheetHref(input.jobId)}.txt`,
    sheet: sheet.value,
  });
}
