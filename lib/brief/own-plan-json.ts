import type { OwnPlanCheck, OwnPlanFigures } from '../planner/index.ts';
import type { Finding, Wording } from '../reasons/index.ts';
import { findingText, verdictOf } from '../reasons/index.ts';
import { formatUtc } from '../time/index.ts';

/** The check of a plan made by hand, as JSON of `slatch check`: instants as UTC text, every finding with its words. */
export function publishedCheck(
  checked: OwnPlanCheck,
  of: { wording: Wording; beside: OwnPlanCheck | null },
): Readonly<Record<string, unknown>> {
  return {
    entries: checked.entries.map(({ startEpochMs, endEpochMs, handlingId, findings, ...entry }) => ({
      ...entry,
      handling: handlingId,
      startUtc: formatUtc(startEpochMs),
      endUtc: endEpochMs === null ? null : formatUtc(endEpochMs),
      findings: findings.map((finding) => published(finding, of.wording)),
    })),
    sleepFindings: checked.sleepFindings.map((finding) => published(finding, of.wording)),
    jobs: checked.jobs,
    figures: figures(checked),
    beside: of.beside === null ? null : figures(of.beside),
  };
}

function published(finding: Finding, wording: Wording): Readonly<Record<string, unknown>> {
  const { atEpochMs, ...rest } = finding;
  return {
    ...rest,
    verdict: verdictOf(finding),
    atUtc: atEpochMs === null ? null : formatUtc(atEpochMs),
    text: findingText(finding, wording),
  };
}

const figures = (of: OwnPlanFigures): Readonly<Record<string, unknown>> => ({
  allDoneProbability: of.allDoneProbability,
  allDoneProbabilitySd: of.allDoneProbabilitySd,
  finishedJobIds: of.finishedJobIds,
  violationCount: of.violationCount,
  deckH: of.deckH,
  lostNm: of.lostNm,
  sleepH: of.sleepH,
  endUtc: formatUtc(of.endEpochMs),
});
