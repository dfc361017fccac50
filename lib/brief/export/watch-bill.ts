import type { Plan } from '../../planner/index.ts';
import { formatAt } from '../../time/index.ts';
import { type BillRow, billRows } from './bill-rows.ts';
import type { ExportNames } from './export-names.ts';
import { clockName, onBothClocks, planTitle } from './job-words.ts';
import { oneLine } from './plain-text.ts';
import { columnCount, wrapped } from './text-columns.ts';

/** Width of a terminal, and of a sheet in a type that can be read at the chart table. */
const WIDTH_COUNT = 80;
const CLOCK_COUNT = 13;

/**
 * The watch bill as plain text of 80 columns: day by day on the ship's clock, with UTC beside it; work to tick off, sleep
 * with its alarm, what must be decided, the ends of waits, hours on watch; then what is not planned, and the cautions.
 */
export function watchBillText(plan: Plan, names: ExportNames): string {
  const rows = billRows(plan, names);
  const days = [...new Set(rows.map((row) => dayOf(row, names)))];
  return [
    ...wrapped(`WATCH BILL  ${oneLine(plan.passageName)}`, WIDTH_COUNT),
    ...wrapped(
      `${planTitle(plan)}, made ${onBothClocks(plan.madeAtUtc, names)}. Ship’s time is ${clockName(names)}.`,
      WIDTH_COUNT,
    ),
    ...wrapped(`Forecast of ${plan.forecast.baseTimeUtc}, to ${plan.forecast.endUtc}.`, WIDTH_COUNT),
    ...(rows.length === 0 ? ['', 'Nothing is planned.'] : []),
    ...days.flatMap((day) => [
      '',
      dayHead(day),
      ...rows.filter((row) => dayOf(row, names) === day).flatMap(rowLines(names)),
    ]),
    ...notPlannedLines(plan),
    ...cautionLines(plan),
    '',
  ].join('\n');
}

const dayOf = ({ fromEpochMs }: BillRow, { shipTimeOffsetMin }: ExportNames): string =>
  formatAt(fromEpochMs, shipTimeOffsetMin, 'cccc d LLLL yyyy');

/** The day, underlined by the heads of the columns. */
const dayHead = (day: string): string =>
  `${day}\n${'Ship'.padEnd(CLOCK_COUNT)}${'UTC'.padEnd(CLOCK_COUNT + 4)}`.trimEnd();

const rowLines =
  (names: ExportNames) =>
  (row: BillRow): string[] => {
    const ship = clockSpan(row, names.shipTimeOffsetMin).padEnd(CLOCK_COUNT);
    const utc = `${formatAt(row.fromEpochMs, 0, 'ccc')} ${clockSpan(row, 0)}`.padEnd(CLOCK_COUNT + 4);
    const lead = `${ship}${utc}${row.isToTick ? '[ ] ' : '    '}`;
    const room = WIDTH_COUNT - columnCount(lead);
    const lines = [...wrapped(oneLine(row.what), room), ...row.details.flatMap((text) => wrapped(oneLine(text), room))];
    return lines.map((line, k) => `${k === 0 ? lead : ' '.repeat(columnCount(lead))}${line}`.trimEnd());
  };

/** `14:00-15:30`; an instant alone `14:00`. */
function clockSpan({ fromEpochMs, toEpochMs }: BillRow, offsetMin: number): string {
  const from = formatAt(fromEpochMs, offsetMin, 'HH:mm');
  return toEpochMs === null ? from : `${from}-${formatAt(toEpochMs, offsetMin, 'HH:mm')}`;
}

function notPlannedLines({ jobs }: Plan): string[] {
  const left = jobs.filter(({ status }) => status === 'unplanned');
  if (left.length === 0) return [];
  const lines = left.map(({ name, nearestMiss }) => `${name}${nearestMiss === null ? '' : `: ${nearestMiss.text}`}`);
  return ['', 'Not planned', ...lines.flatMap(bullet)];
}

const cautionLines = ({ cautions }: Plan): string[] =>
  cautions.length === 0 ? [] : ['', 'Cautions', ...cautions.flatMap(bullet)];

const bullet = (text: string): string[] =>
  wrapped(oneLine(text), WIDTH_COUNT - 2).map((line, k) => `${k === 0 ? '- ' : '  '}${line}`);
