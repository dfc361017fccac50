import { materialsLeft, type Job, toolsLeft } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { freeAmount, itemKey, type LockerItem } from '../../lib/stock/index.ts';
import { plainFigure } from './job-figures.ts';
import { type JobLink, jobPageHref } from './job-page.ts';
import { sizeText, stockText } from './locker-words.ts';
import { type TimeTexts, timeTexts } from './time-texts.ts';

/** One line of the locker, and what the jobs want of its item. */
export interface LockerRow {
  readonly href: string;
  readonly item: string;
  /** Of a bar; empty: it is none. */
  readonly size: string;
  readonly onBoard: string;
  /** Empty: no reserve is kept. */
  readonly keep: string;
  readonly free: string;
  /** Jobs with what they take, or of a tool jobs that want it. */
  readonly takes: readonly JobLink[];
  /** What the jobs leave or lack of the item, of all its lines together; empty: none takes of it. */
  readonly left: string;
  readonly isShort: boolean;
  readonly place: string;
  /** Below its reserve; not to be used before. */
  readonly notes: readonly string[];
}

/** Lines of materials and bars, and lines of tools, each in the order of the locker. */
export interface LockerRows {
  readonly stock: readonly LockerRow[];
  readonly tools: readonly LockerRow[];
}

export const itemHref = (index: number): string => `/locker/items/${index}`;

export function lockerRows(passage: Passage): LockerRows {
  const { items } = passage.locker;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const rows = items.map((line, index) => ({ kind: line.kind, row: rowOf(line, index, { passage, times }) }));
  return {
    stock: rows.filter(({ kind }) => kind !== 'tool').map(({ row }) => row),
    tools: rows.filter(({ kind }) => kind === 'tool').map(({ row }) => row),
  };
}

interface Around {
  readonly passage: Passage;
  readonly times: TimeTexts;
}

function rowOf(line: LockerItem, index: number, { passage, times }: Around): LockerRow {
  const { items } = passage.locker;
  const isFirst = items.findIndex(({ item }) => itemKey(item) === itemKey(line.item)) === index;
  return {
    href: itemHref(index),
    item: line.item,
    size: sizeText(line),
    onBoard: stockText(line.onBoardAmount, line.unit),
    keep: line.keepAmount === 0 ? '' : stockText(line.keepAmount, line.unit),
    free: stockText(freeAmount(line), line.unit),
    ...wantedOf(line, isFirst, passage),
    place: line.place ?? '',
    notes: notesOf(line, times),
  };
}

function notesOf(line: LockerItem, times: TimeTexts): readonly string[] {
  const { onBoardAmount, keepAmount, unit, readyEpochMs } = line;
  return [
    ...(onBoardAmount < keepAmount ? [`below its reserve by ${stockText(keepAmount - onBoardAmount, unit)}`] : []),
    ...(readyEpochMs === null ? [] : [`not to be used before ${times.full(readyEpochMs)}`]),
  ];
}

type Wanted = Pick<LockerRow, 'takes' | 'left' | 'isShort'>;

const NOT_WANTED: Wanted = { takes: [], left: '', isShort: false };

/** What is wanted of an item is said at its first line; jobs do not choose among sizes. */
function wantedOf(line: LockerItem, isFirst: boolean, passage: Passage): Wanted {
  if (!isFirst) return { ...NOT_WANTED, left: 'as above, all sizes together' };
  return line.kind === 'tool' ? wantedTool(line, passage) : wantedStock(line, passage);
}

function wantedTool({ item }: LockerItem, { jobs, orders }: Passage): Wanted {
  const wanting = jobs.filter((job) => toolsLeft(job, orders.jobs).some((tool) => itemKey(tool) === itemKey(item)));
  return { ...NOT_WANTED, takes: wanting.map(({ id, name }) => ({ href: jobPageHref(id), text: name })) };
}

function wantedStock({ item, unit }: LockerItem, passage: Passage): Wanted {
  const { jobs, locker } = passage;
  const takers = jobs.flatMap((job) => {
    const amount = materialAmount(job, item, passage);
    return amount === 0 ? [] : [{ job, amount }];
  });
  if (takers.length === 0) return NOT_WANTED;
  const lines = locker.items.filter((line) => itemKey(line.item) === itemKey(item));
  const made = jobs
    .filter(({ id }) => passage.orders.jobs.get(id)?.isDone !== true)
    .flatMap(({ makes }) => makes)
    .filter((make) => itemKey(make.item) === itemKey(item));
  const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);
  const leftAmount =
    sum(lines.map(freeAmount)) + sum(made.map(({ amount }) => amount)) - sum(takers.map(({ amount }) => amount));
  // Sums of decimals leave a rest that no one can measure.
  const isShort = leftAmount < -0.005;
  return {
    takes: takers.map(({ job, amount }) => ({
      href: jobPageHref(job.id),
      text: `${stockText(amount, unit)}: ${job.name}`,
    })),
    left: isShort
      ? `${stockText(-leftAmount, unit)} short${takers.length > 1 ? ' for all of them' : ''}`
      : `leaves ${stockText(Math.max(0, leftAmount), unit)}`,
    isShort,
  };
}

/** What the unfinished steps of a job take of an item; a step begun takes all of its own. */
function materialAmount(job: Job, item: string, { orders }: Passage): number {
  return materialsLeft(job, orders.jobs)
    .filter((need) => itemKey(need.item) === itemKey(item))
    .reduce((total, need) => total + need.amount, 0);
}

/** `15 lines of material and bars, 29 of tools.` */
export const countText = ({ stock, tools }: LockerRows): string =>
  `${plainFigure(stock.length)} ${stock.length === 1 ? 'line' : 'lines'} of material and bars, ${tools.length} of tools.`;
