import { type SlotGrid, slotEpochMs } from '../../lib/time/index.ts';
import type { BlockWindow } from '../../lib/windows/index.ts';
import { of100 } from './amount-texts.ts';
import { handlingText } from './handling-text.ts';
import { joined, limitName, marginTexts } from './limit-texts.ts';
import type { PassageView } from './plan-standing.ts';
import type { JobMenu } from './shown-names.ts';
import type { TimeTexts } from './time-texts.ts';
import { type ChosenWindows, windowsHref } from './windows-choice.ts';

/** One span of start times of one part under one handling. */
export interface WindowRow {
  readonly key: string;
  /** Part and handling of this row are those drawn. */
  readonly isShown: boolean;
  readonly isConditional: boolean;
  /** Empty where the job is all one part. */
  readonly part: string;
  readonly handling: string;
  readonly between: string;
  /** `surest 08:00 to 13:00`: fair too if the weather comes early or late; empty: no start is. */
  readonly surest: string;
  readonly best: string;
  readonly bestHref: string;
  readonly of100: string;
  readonly room: string;
  readonly binds: string;
  /** The α-factor method of marine operations, as a cross-check. */
  readonly standard: string;
  /** `conditional: rain unknown`; empty for the others. */
  readonly note: string;
}

interface RowsInput {
  readonly view: PassageView;
  readonly menu: JobMenu;
  readonly chosen: ChosenWindows;
  readonly windows: readonly BlockWindow[];
  readonly grid: SlotGrid;
  readonly times: TimeTexts;
}

/** All windows of a job: unconditional ones first, then by time. */
export function windowRows({ view, menu, chosen, windows, grid, times }: RowsInput): WindowRow[] {
  const at = (slot: number): number => slotEpochMs(grid, slot);
  return windows
    .toSorted((a, b) => Number(a.conditional) - Number(b.conditional) || a.firstStartSlot - b.firstStartSlot)
    .map((window) => {
      const { blockIndex, handlingId } = window;
      const span = { fromEpochMs: at(window.firstStartSlot), toEpochMs: at(window.lastStartSlot) };
      const bestEpochMs = at(window.bestStartSlot);
      return {
        key: `${blockIndex} ${handlingId} ${span.fromEpochMs}`,
        isShown: blockIndex === chosen.partIndex && handlingId === chosen.handlingId,
        isConditional: window.conditional,
        part: menu.parts.length < 2 ? '' : String(blockIndex + 1),
        handling: handlingText(view.picture, handlingId),
        between: times.span(span, 'to'),
        surest: surestText(window, at, times),
        best: times.dayTime(bestEpochMs),
        bestHref: windowsHref({ jobId: menu.jobId, partIndex: blockIndex, handlingId }, bestEpochMs),
        of100: String(of100(window.probability)),
        ...roomOf(window, times),
        standard: standardText(window),
        note: window.conditional ? `conditional: ${joined(window.unknownLimits.map(limitName))} unknown` : '',
      };
    });
}

function surestText(
  { surestFirstStartSlot: first, surestLastStartSlot: last }: BlockWindow,
  at: (slot: number) => number,
  times: TimeTexts,
): string {
  if (first === null || last === null) return '';
  return `surest ${times.span({ fromEpochMs: at(first), toEpochMs: at(last) }, 'to')}`;
}

function roomOf({ binding }: BlockWindow, times: TimeTexts): Pick<WindowRow, 'room' | 'binds'> {
  if (binding === null) return { room: 'no limit near', binds: 'nothing near' };
  const { room, binds } = marginTexts(binding, times);
  return { room, binds };
}

/** Of the limit that decides it: the first the method rejects, else the one it holds lowest. */
function standardText({ margins }: BlockWindow): string {
  const judged = margins.flatMap(({ standard, limit }) => (standard === null ? [] : [{ ...standard, limit }]));
  const missed = judged.find(({ met }) => !met);
  if (missed !== undefined)
    return `not met: ${limitName(missed.limit)} above ${percent(missed.alphaRatio)} of its limit`;
  const strictest = judged.toSorted((a, b) => a.alphaRatio - b.alphaRatio)[0];
  return strictest === undefined ? 'does not apply' : `met, within ${percent(strictest.alphaRatio)} of the limit`;
}

const percent = (ratio: number): string => `${Math.floor(ratio * 100)} %`;
