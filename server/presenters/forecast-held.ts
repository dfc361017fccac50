import { formatLat, formatLon } from '../../lib/geo/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { Track } from '../../lib/track/index.ts';
import type { QuantityCovered, RunCovered } from './coverage/coverage-model.ts';
import { apartText } from './coverage/coverage-times.ts';
import { alongText, type CoverageView, coverageView } from './coverage/coverage-view.ts';
import type { ForecastSummary, HeldQuantity } from './forecast-summary.ts';
import { durationText, type TimeTexts } from './time-texts.ts';
import { sentenceIn } from './units/sentence.ts';

/** What the forecast of a plan holds, in words. */
export interface HeldView {
  readonly title: string;
  /** Age, span, members. */
  readonly lines: readonly string[];
  readonly rows: readonly HeldRow[];
  readonly missing: string;
  readonly coverage: CoverageView;
  /** The forecast against the log. */
  readonly seen: readonly string[];
  readonly uncovered: readonly Problem[];
  readonly notes: readonly string[];
  readonly problems: readonly Problem[];
}

export interface HeldRow {
  readonly name: string;
  readonly span: string;
  readonly step: string;
  readonly members: string;
  readonly area: string;
  /** Of the plan's hours, those at which it is known where the boat will be. */
  readonly along: string;
}

export interface HeldShown {
  readonly atEpochMs: number;
  readonly seen: readonly string[];
  readonly shipTimeOffsetMin: number;
  /** null: it is not known. */
  readonly track: Track | null;
  /** How a file is called on pages. */
  readonly fileName: (reference: string) => string;
}

/** The forecast at an instant of the passage's clock, and against what was seen. */
export function heldView(summary: ForecastSummary, shown: HeldShown, times: TimeTexts): HeldView {
  const { atEpochMs, seen } = shown;
  const { coverage, missing } = summary;
  const ageMin = Math.max(0, (atEpochMs - summary.baseEpochMs) / 60_000);
  return {
    title: `The forecast of ${times.full(summary.baseEpochMs)} (${times.utc(summary.baseEpochMs)})`,
    lines: [
      `It is ${durationText(ageMin)} old and reaches to ${times.full(summary.endEpochMs)} (${times.utc(summary.endEpochMs)}), ` +
        `${durationText(Math.max(0, (summary.endEpochMs - atEpochMs) / 60_000))} from now.`,
      membersText(summary),
    ],
    rows: grouped(
      summary.quantities.map((held, i) => heldRow(held, { covered: coverage.quantities[i], summary, times })),
    ),
    missing:
      summary.missing.length === 0
        ? ''
        : `It does not hold ${summary.missing.join(', ')}: what depends on them is unknown, and unknown never counts as safe.`,
    coverage: coverageView({ ...shown, data: coverage, missing, nowEpochMs: atEpochMs, times }),
    seen: seen.map((line) => sentenceIn(line, times.units)),
    uncovered: summary.uncovered,
    notes: summary.notes.map((note) => sentenceIn(note, times.units)),
    problems: summary.problems,
  };
}

function membersText({ memberCount, hasControl }: ForecastSummary): string {
  if (memberCount < 2)
    return 'It is one forecast, not an ensemble: how far it may be wrong is taken from how far ahead it looks.';
  return `It is an ensemble of ${memberCount} members${hasControl ? ' and a control run' : ''}: they show how sure it is.`;
}

interface RowOf {
  readonly covered: QuantityCovered | undefined;
  readonly summary: ForecastSummary;
  readonly times: TimeTexts;
}

function heldRow(held: HeldQuantity, { covered, summary, times }: RowOf): HeldRow {
  const { gridStepDeg } = held;
  const baseEpochMs = covered?.runs[0]?.baseEpochMs ?? summary.baseEpochMs;
  const members = [
    ...(held.memberCount > 0 ? [`${held.memberCount} members`] : []),
    ...(held.hasControl ? [held.memberCount > 0 ? 'control' : 'one run'] : []),
    ...(baseEpochMs === summary.baseEpochMs ? [] : [`of ${times.utc(baseEpochMs)}`]),
  ];
  return {
    name: held.name,
    span: `${times.full(held.firstEpochMs)} to ${times.full(held.endEpochMs)}`,
    step: stepText(held, covered?.runs ?? []),
    members: members.join(', '),
    area: `${areaText(held.area)}, every ${trimmed(gridStepDeg.lat)}°`,
    along: covered === undefined ? '' : alongText(covered, summary.coverage, times),
  };
}

/** `3 h`; where members and control differ, `6 h, control 3 h`. */
function stepText({ stepH }: HeldQuantity, runs: readonly RunCovered[]): string {
  const [first, ...others] = runs.map(({ name, steps }) => ({
    name,
    apart: apartText(steps.map((one) => one.endEpochMs)),
  }));
  if (first !== undefined && others.length > 0)
    return [first.apart ?? 'one field', ...others.map(({ name, apart }) => `${name} ${apart ?? 'one field'}`)].join(
      ', ',
    );
  if (stepH === null) return 'one field';
  return stepH.least === stepH.most ? hours(stepH.least) : `${stepH.least} to ${hours(stepH.most)}`;
}

/** Quantities of which the same is to be said stand in one row. */
function grouped(rows: readonly HeldRow[]): HeldRow[] {
  const byRest = new Map<string, HeldRow>();
  for (const row of rows) {
    const key = [row.span, row.step, row.members, row.area, row.along].join('|');
    const before = byRest.get(key);
    byRest.set(key, before === undefined ? row : { ...before, name: `${before.name}, ${row.name}` });
  }
  return [...byRest.values()];
}

const hours = (stepH: number): string => `${trimmed(stepH)} h`;
const trimmed = (value: number): string => String(Math.round(value * 100) / 100);

const areaText = ({ southWest, northEast }: HeldQuantity['area']): string =>
  `${formatLat(southWest.lat, 0)} to ${formatLat(northEast.lat, 0)}, ${formatLon(southWest.lon, 0)} east to ${formatLon(northEast.lon, 0)}`;
