import type { Planned } from '../planner/index.ts';
import { formatUtc, MS_PER_H, slotEpochMs } from '../time/index.ts';
import type { BlockWindow } from '../windows/index.ts';

/** The α-factor method of marine operations: forecast <= α · limit over the reference period. */
export interface PublishedCriterion {
  readonly limit: string;
  readonly alphaRatio: number;
  readonly met: boolean;
  readonly referenceMin: number;
  /** From the base time of the forecast to the best start. */
  readonly leadH: number;
}

/** One window as it is published. */
export interface PublishedWindow {
  readonly blockIndex: number;
  readonly handling: string;
  readonly firstStartUtc: string;
  readonly lastStartUtc: string;
  readonly bestStartUtc: string;
  /** Starts that stay fair when the weather comes earlier or later than forecast; null: none does. */
  readonly surestStarts: { readonly firstUtc: string; readonly lastUtc: string } | null;
  readonly probability: number;
  readonly marginSd: number | null;
  readonly bindingLimit: string | null;
  /** α-factor method for the tightest limit it applies to, at the best start; null: it applies to none. */
  readonly standardCriterion: PublishedCriterion | null;
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

/** What publishing needs of a preparation: slots and base time. */
type Published = Pick<Planned['preparation'], 'grid'> & {
  readonly weather: Pick<Planned['preparation']['weather'], 'baseEpochMs'>;
};

/** All windows and nearest misses, as JSON of `slatch windows`. */
export function publishedWindows(
  found: Pick<Planned, 'windows'> & { readonly preparation: Published },
): PublishedWindows {
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

function published(window: BlockWindow, { preparation }: { readonly preparation: Published }): PublishedWindow {
  const utc = (slotIndex: number): string => formatUtc(slotEpochMs(preparation.grid, slotIndex));
  return {
    blockIndex: window.blockIndex,
    handling: window.handlingId,
    firstStartUtc: utc(window.firstStartSlot),
    lastStartUtc: utc(window.lastStartSlot),
    bestStartUtc: utc(window.bestStartSlot),
    surestStarts: surestStarts(window, utc),
    probability: Number(window.probability.toFixed(4)),
    marginSd: window.marginSd === null ? null : Number(window.marginSd.toFixed(3)),
    bindingLimit: window.binding?.limit ?? null,
    standardCriterion: standardCriterion(window, preparation),
    plannedMin: Math.round(window.plannedMin),
    referenceMin: window.referenceSlots * preparation.grid.slotMin,
    conditional: window.conditional,
    unknownLimits: window.unknownLimits,
  };
}

function surestStarts(window: BlockWindow, utc: (slotIndex: number) => string): PublishedWindow['surestStarts'] {
  const { surestFirstStartSlot, surestLastStartSlot } = window;
  if (surestFirstStartSlot === null || surestLastStartSlot === null) return null;
  return { firstUtc: utc(surestFirstStartSlot), lastUtc: utc(surestLastStartSlot) };
}

function standardCriterion(window: BlockWindow, { grid, weather }: Published): PublishedWindow['standardCriterion'] {
  for (const { limit, standard } of window.margins) {
    if (standard === null) continue;
    const leadH = (slotEpochMs(grid, window.bestStartSlot) - weather.baseEpochMs) / MS_PER_H;
    return {
      limit,
      alphaRatio: Number(standard.alphaRatio.toFixed(3)),
      met: standard.met,
      referenceMin: window.referenceSlots * grid.slotMin,
      leadH: Number(leadH.toFixed(2)),
    };
  }
  return null;
}

function shortage(window: BlockWindow): { shortBy: number | null; unit: string | null } {
  const broken = window.margins.find((margin) => margin.margin < 0);
  return broken === undefined
    ? { shortBy: null, unit: null }
    : { shortBy: Number((-broken.margin).toFixed(2)), unit: broken.unit };
}
