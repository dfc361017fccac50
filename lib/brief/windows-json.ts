import type { Planned } from '../planner/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import type { BlockWindow } from '../windows/index.ts';

/** One window as it is published. */
export interface PublishedWindow {
  readonly blockIndex: number;
  readonly handling: string;
  readonly firstStartUtc: string;
  readonly lastStartUtc: string;
  readonly bestStartUtc: string;
  readonly probability: number;
  readonly marginSd: number | null;
  readonly bindingLimit: string | null;
  readonly plannedMin: number;
  readonly referenceMin: number;
  readonly conditional: boolean;
  readonly unknownLimits: readonly string[];
}

export interface PublishedWindows {
  readonly jobs: readonly {
    readonly jobId: string;
    readonly windows: readonly PublishedWindow[];
    /** Best start of a block that has no window; null: every block has one. */
    readonly nearestMiss: (PublishedWindow & { readonly shortBy: number | null; readonly unit: string | null }) | null;
  }[];
}

/** All windows and nearest misses, as JSON of `slatch windows`. */
export function publishedWindows(found: Pick<Planned, 'windows' | 'preparation'>): PublishedWindows {
  return {
    jobs: found.windows.map(({ jobId, windows, nearestMisses }) => {
      const [miss] = nearestMisses;
      return {
        jobId,
        windows: windows.map((window) => published(window, found)),
        nearestMiss: miss === undefined ? null : { ...published(miss, found), ...shortage(miss) },
      };
    }),
  };
}

function published(window: BlockWindow, { preparation }: Pick<Planned, 'preparation'>): PublishedWindow {
  const utc = (slotIndex: number): string => formatUtc(slotEpochMs(preparation.grid, slotIndex));
  const marginSd = window.binding?.marginSd ?? null;
  return {
    blockIndex: window.blockIndex,
    handling: window.handlingId,
    firstStartUtc: utc(window.firstStartSlot),
    lastStartUtc: utc(window.lastStartSlot),
    bestStartUtc: utc(window.bestStartSlot),
    probability: Number(window.probability.toFixed(4)),
    marginSd: marginSd === null ? null : Number(marginSd.toFixed(3)),
    bindingLimit: window.binding?.limit ?? null,
    plannedMin: Math.round(window.plannedMin),
    referenceMin: window.referenceSlots * preparation.grid.slotMin,
    conditional: window.conditional,
    unknownLimits: window.unknownLimits,
  };
}

function shortage(window: BlockWindow): { shortBy: number | null; unit: string | null } {
  const broken = window.margins.find((margin) => margin.margin < 0);
  return broken === undefined
    ? { shortBy: null, unit: null }
    : { shortBy: Number((-broken.margin).toFixed(2)), unit: broken.unit };
}
