import { slotEpochMs } from '../time/index.ts';
import type { BlockWork, LimitId, LimitMargin, SlotSpan, WindowSearch } from '../windows/index.ts';
import { blockMargins, LIMIT_IDS } from '../windows/index.ts';
import type { Finding } from './finding.ts';
import type { LimitScan } from './limit-scan.ts';
import { limitScans } from './limit-scan.ts';

/** A block worked under a handling with what is set. */
export type WorkedBlock = Pick<BlockWork, 'block' | 'handling' | 'sailStateId'>;

/** Judges periods of one block; the limits are scanned once. */
export interface WeatherJudge {
  /**
   * One finding for each limit the block has, those broken in most scenarios first, then in the order of LIMIT_IDS.
   *
   * `scenarioShare` counts the scenarios that break it somewhere in the spans, `atEpochMs` is the first instant at which
   * one of them does (null: none), `observed` the median scenario at its tightest moment (null: unknown somewhere in the
   * spans). A limit that no step of the block has gives no finding.
   *
   * @param spans slots each step of the block must hold, both ends included, as in a block table
   */
  findings(spans: readonly SlotSpan[]): Finding[];
  /** Share of scenario weight that keeps every known limit over the spans. */
  keptShare(spans: readonly SlotSpan[]): number;
}

/** A judge of the weather for one block in one set of conditions. */
export function weatherJudge(work: WorkedBlock, search: Pick<WindowSearch, 'conditions' | 'settings'>): WeatherJudge {
  const scanned = scan(work, search);
  const all = scanned.ofSteps.flat();
  const limits = LIMIT_IDS.filter((limit) => all.some((ofLimit) => ofLimit.limit === limit));
  return {
    findings: (spans) => {
      const margins = new Map<string, LimitMargin>();
      for (const margin of blockMargins(work, search, spans)) margins.set(margin.limit, margin);
      return limits
        .map((limit) => weatherFinding(scanned, spans, { limit, margin: margins.get(limit) }))
        .toSorted((a, b) => (b.scenarioShare ?? 0) - (a.scenarioShare ?? 0));
    },
    keptShare: (spans) => 1 - breaksIn(scanned, spans, () => true).share,
  };
}

interface Scanned {
  readonly jobId: string;
  /** Limits of each step. */
  readonly ofSteps: readonly (readonly LimitScan[])[];
  readonly weights: Int32Array;
  readonly grid: Parameters<typeof slotEpochMs>[0];
  readonly pointCount: number;
}

function scan(work: WorkedBlock, search: Pick<WindowSearch, 'conditions' | 'settings'>): Scanned {
  const { baseEpochMs, steadyingWindRule, weights } = search.settings;
  const worked = { ...work, conditions: search.conditions, baseEpochMs, steadyingWindRule };
  return {
    jobId: work.block.jobId,
    ofSteps: work.block.steps.map((step) => limitScans({ ...worked, step })),
    weights,
    grid: search.conditions.course.grid,
    pointCount: search.conditions.weather.pointCount,
  };
}

function weatherFinding(
  scanned: Scanned,
  spans: readonly SlotSpan[],
  of: { limit: LimitId; margin: LimitMargin | undefined },
): Finding {
  const ofLimit = (found: LimitScan): boolean => found.limit === of.limit;
  const breaks = breaksIn(scanned, spans, ofLimit);
  const [any] = scanned.ofSteps.flat().filter(ofLimit);
  const isUnknown = of.margin === undefined || isUnknownIn(scanned, spans, ofLimit);
  return {
    rule: of.limit,
    jobId: scanned.jobId,
    observed: isUnknown ? null : (of.margin?.observed ?? null),
    required: of.margin?.required ?? any?.noGo ?? 0,
    unit: any?.unit ?? '',
    margin: isUnknown ? null : (of.margin?.margin ?? null),
    atEpochMs: breaks.firstSlot === null ? null : slotEpochMs(scanned.grid, breaks.firstSlot),
    scenarioShare: breaks.share,
    names: [],
  };
}

/** Share of the weight that breaks a limit somewhere in the spans, and the first slot at which it does. */
function breaksIn(
  scanned: Scanned,
  spans: readonly SlotSpan[],
  isAsked: (found: LimitScan) => boolean,
): { share: number; firstSlot: number | null } {
  let brokenWeight = 0;
  let allWeight = 0;
  let firstSlot = Infinity;
  for (let w = 0; w < scanned.weights.length; w++) {
    let hit = Infinity;
    for (const [k, span] of spans.entries()) {
      for (const found of scanned.ofSteps[k] ?? []) {
        if (!isAsked(found)) continue;
        const next = found.nextBroken[w * scanned.pointCount + span.fromSlot] ?? Infinity;
        if (next <= span.toSlot) hit = Math.min(hit, next);
      }
    }
    allWeight += scanned.weights[w] ?? 0;
    if (hit < Infinity) brokenWeight += scanned.weights[w] ?? 0;
    firstSlot = Math.min(firstSlot, hit);
  }
  return { share: brokenWeight / allWeight, firstSlot: firstSlot < Infinity ? firstSlot : null };
}

function isUnknownIn(scanned: Scanned, spans: readonly SlotSpan[], isAsked: (found: LimitScan) => boolean): boolean {
  return spans.some((span, k) =>
    (scanned.ofSteps[k] ?? []).some(
      (found) => isAsked(found) && (found.nextUnknown[span.fromSlot] ?? Infinity) <= span.toSlot,
    ),
  );
}
