import type { CoverageLine, CoverageMark, CoverageTimes } from '../../server/presenters/coverage/coverage-times.ts';
import { textWidthPx } from './label-rows.ts';
import { plot, type Plot } from './plot.ts';

const NAME_PX = 12.5;
const NOTE_PX = 11;
const ROW_PX = 15;
export const BAR_PX = 14;
/** Hours where she will be stand so far under the bar of the files, and are so high. */
const ALONG_GAP_PX = 3;
export const ALONG_PX = 8;
const LINE_GAP_PX = 12;
const HEADING_PX = 26;
const FOOT_PX = 22;

/** A line of the chart with its place down the page. */
export interface LaidLine {
  readonly line: CoverageLine;
  /** Over the first line of a kind; empty: none. */
  readonly heading: string;
  readonly headingPx: number;
  readonly words: readonly { readonly text: string; readonly y: number; readonly isNote: boolean }[];
  readonly barPx: number;
  readonly alongPx: number;
}

export interface LaidMark {
  readonly mark: CoverageMark;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'end';
}

export interface CoverageLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly on: Plot;
  readonly marks: readonly LaidMark[];
  /** Bars stand between these. */
  readonly topPx: number;
  readonly footPx: number;
  readonly lines: readonly LaidLine[];
}

const HEADINGS = {
  file: 'In the files',
  quantity: 'By quantity, and under each where she will be',
  missing: 'In no file',
} as const;

export function coverageLayout(times: CoverageTimes, widthPx: number): CoverageLayout {
  const on = plot(times, [2, widthPx - 2], false);
  const marks = laidMarks(times.marks, on, widthPx);
  const topPx = Math.max(ROW_PX, ...marks.map(({ y }) => y)) + 6;
  let y = topPx;
  let lastKind: CoverageLine['kind'] | null = null;
  const lines = times.lines.map((line): LaidLine => {
    const heading = line.kind === lastKind ? '' : HEADINGS[line.kind];
    lastKind = line.kind;
    if (heading !== '') y += HEADING_PX;
    const headingPx = y - 8;
    const words = [
      ...wrapped(line.name, widthPx, NAME_PX).map((text) => ({ text, isNote: false })),
      ...wrapped(line.note, widthPx, NOTE_PX).map((text) => ({ text, isNote: true })),
    ].map((word, i) => ({ ...word, y: y + (i + 1) * ROW_PX - 4 }));
    const barPx = y + words.length * ROW_PX + 1;
    const alongPx = barPx + BAR_PX + ALONG_GAP_PX;
    y = (line.along === null ? barPx + BAR_PX : alongPx + ALONG_PX) + LINE_GAP_PX;
    return { line, heading, headingPx, words, barPx, alongPx };
  });
  return { widthPx, heightPx: y + FOOT_PX, on, marks, topPx, footPx: y, lines };
}

/** Words of marks in as few rows as keep them apart. */
function laidMarks(marks: readonly CoverageMark[], on: Plot, widthPx: number): LaidMark[] {
  const rowEnds: number[] = [];
  return marks
    .toSorted((a, b) => a.atEpochMs - b.atEpochMs)
    .map((mark) => {
      const x = on.along(mark.atEpochMs);
      const wordPx = textWidthPx(mark.text, NOTE_PX) + 8;
      const anchor = x + wordPx > widthPx ? 'end' : 'start';
      const [fromPx, toPx] = anchor === 'end' ? [x - wordPx, x] : [x, x + wordPx];
      const free = rowEnds.findIndex((endPx) => endPx <= fromPx);
      const row = free < 0 ? rowEnds.length : free;
      rowEnds[row] = toPx;
      return { mark, x, y: 11 + row * ROW_PX, anchor };
    });
}

/** Text in lines that fit a width, cut between words. */
function wrapped(text: string, widthPx: number, sizePx: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').filter((one) => one !== '')) {
    const last = lines.at(-1);
    if (last !== undefined && textWidthPx(`${last} ${word}`, sizePx) <= widthPx - 6)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
