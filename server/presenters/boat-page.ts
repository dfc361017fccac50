import { DEFAULT_HANDLINGS, formatSpeedTableCsv, type Handling, type SpeedRow } from '../../lib/boat/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';

interface Head {
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
}

/** A figure, and whether it is the program's own. */
export interface BoatFigure {
  readonly label: string;
  readonly text: string;
  readonly isDefault: boolean;
}

/** The boat: her figures, a speed table for each sail state, and how she can be handled. */
export interface BoatPage extends Head {
  readonly kind: 'boat';
  readonly figures: readonly BoatFigure[];
  readonly tables: readonly TableRow[];
  readonly handlings: readonly HandlingRow[];
}

interface TableRow {
  readonly name: string;
  readonly text: string;
  readonly isEstimated: boolean;
  readonly href: string;
}

interface HandlingRow {
  readonly name: string;
  readonly href: string;
  /** `18 / 25 / 30 kn` */
  readonly wind: string;
  readonly sea: string;
  readonly isDefault: boolean;
}

/** The speed table of one sail state as a text to be changed. */
export interface SpeedsPage extends Head {
  readonly kind: 'speeds';
  readonly title: string;
  readonly action: string;
  readonly text: string;
  /** There is a table that may be taken out. */
  readonly isThere: boolean;
  readonly problems: readonly Problem[];
  /** null: not looked at yet, or it cannot be read. */
  readonly preview: SpeedsPreview | null;
}

export interface SpeedsPreview {
  readonly changes: readonly string[];
  /** Angles down, winds across; empty where the table has no speed for both. */
  readonly windHeads: readonly string[];
  readonly rows: readonly { readonly head: string; readonly speeds: readonly string[] }[];
}

const headOf = (document: JobDocument, nowEpochMs: number): Head => ({
  name: document.passage.name,
  clock: documentClock(document.passage, nowEpochMs),
  version: versionText(document),
});

export const handlingHref = (id: string): string => `/passage/boat/handlings/${encodeURIComponent(id)}`;
const speedsHref = (id: string): string => `/passage/boat/speeds/${encodeURIComponent(id)}`;

export function boatPage(document: JobDocument, nowEpochMs: number): BoatPage {
  const { file, passage } = document;
  const { boat, defaultsUsed } = passage;
  return {
    kind: 'boat',
    ...headOf(document, nowEpochMs),
    figures: [
      { label: 'Name', text: boat.name, isDefault: defaultsUsed.includes('boat.name') },
      {
        label: 'Wind instrument above the water',
        text: `${boat.instrumentHeightM} m`,
        isDefault: defaultsUsed.includes('boat.instrumentHeightM'),
      },
    ],
    tables: boat.sailStates.map(({ id, name }) => {
      const rows = file.boat.speedTables[id];
      return {
        name,
        text: rows === undefined ? 'estimated from the sail area' : tableText(rows),
        isEstimated: rows === undefined,
        href: speedsHref(id),
      };
    }),
    handlings: boat.handlings.map((handling) => handlingRow(handling, passage)),
  };
}

const handlingRow = ({ id, name, limits }: Handling, { defaultsUsed }: Passage): HandlingRow => ({
  name,
  href: handlingHref(id),
  wind: `${levelsText(limits.trueWindKn)} kn`,
  sea: `${levelsText(limits.seaHeightM)} m`,
  isDefault: defaultsUsed.includes(`boat.handlings.${id}`) && DEFAULT_HANDLINGS.some((usual) => usual.id === id),
});

const levelsText = ({ ideal, caution, noGo }: Handling['limits']['trueWindKn']): string =>
  `${ideal} / ${caution} / ${noGo}`;

/** `150 rows: 40° to 180°, 4 to 30 kn` */
function tableText(rows: readonly SpeedRow[]): string {
  const count = rows.length === 1 ? '1 row' : `${rows.length} rows`;
  const span = (values: readonly number[]): readonly [number, number] => [Math.min(...values), Math.max(...values)];
  const [leastDeg, mostDeg] = span(rows.map(({ twaDeg }) => twaDeg));
  const [leastKn, mostKn] = span(rows.map(({ twsKn }) => twsKn));
  return `${count}: ${leastDeg}° to ${mostDeg}°, ${leastKn} to ${mostKn} kn of wind`;
}

interface SpeedsEntered {
  readonly text?: string;
  readonly problems?: readonly Problem[];
  /** What the text says, where it can be read. */
  readonly rows?: readonly SpeedRow[];
}

/** @param entered what was typed and is not saved */
export function speedsPage(
  document: JobDocument,
  nowEpochMs: number,
  { stateId, entered = {} }: { readonly stateId: string; readonly entered?: SpeedsEntered },
): SpeedsPage {
  const before = document.file.boat.speedTables[stateId];
  const state = document.passage.boat.sailStates.find(({ id }) => id === stateId);
  const { text = formatSpeedTableCsv(before ?? []), problems = [], rows } = entered;
  return {
    kind: 'speeds',
    ...headOf(document, nowEpochMs),
    title: `Speed table: ${state?.name ?? stateId}`,
    action: speedsHref(stateId),
    text,
    isThere: before !== undefined,
    problems,
    preview: rows === undefined ? null : previewOf(before ?? [], rows),
  };
}

const keyOf = ({ twaDeg, twsKn }: SpeedRow): string => `${twaDeg} ${twsKn}`;

function previewOf(before: readonly SpeedRow[], after: readonly SpeedRow[]): SpeedsPreview {
  const twas = [...new Set(after.map(({ twaDeg }) => twaDeg))].toSorted((a, b) => a - b);
  const winds = [...new Set(after.map(({ twsKn }) => twsKn))].toSorted((a, b) => a - b);
  const speeds = new Map(after.map((row) => [keyOf(row), row.boatSpeedKn]));
  return {
    changes: changesOf(before, after),
    windHeads: winds.map((twsKn) => `${twsKn} kn`),
    rows: twas.map((twaDeg) => ({
      head: `${twaDeg}°`,
      speeds: winds.map((twsKn) => String(speeds.get(`${twaDeg} ${twsKn}`) ?? '')),
    })),
  };
}

/** What a table changes of another, in sentences; empty: nothing. */
function changesOf(before: readonly SpeedRow[], after: readonly SpeedRow[]): readonly string[] {
  const was = new Map(before.map((row) => [keyOf(row), row.boatSpeedKn]));
  const is = new Map(after.map((row) => [keyOf(row), row.boatSpeedKn]));
  const added = after.filter((row) => !was.has(keyOf(row)));
  const gone = before.filter((row) => !is.has(keyOf(row)));
  const changed = after.filter((row) => was.has(keyOf(row)) && was.get(keyOf(row)) !== row.boatSpeedKn);
  const rowText = (row: SpeedRow): string => {
    const speedBefore = was.get(keyOf(row));
    const now = is.has(keyOf(row)) ? `${row.boatSpeedKn} kn` : 'out';
    return `${row.twaDeg}° at ${row.twsKn} kn: ${speedBefore === undefined ? '' : `${speedBefore} kn before, `}${now}`;
  };
  return [
    ...sentence(added.map(rowText), 'comes in', 'come in'),
    ...sentence(gone.map(rowText), 'goes out', 'go out'),
    ...sentence(changed.map(rowText), 'changes', 'change'),
  ];
}

const MOST_TOLD = 6;

/** How many rows, and the first of them. */
function sentence(rows: readonly string[], one: string, many: string): readonly string[] {
  if (rows.length === 0) return [];
  const told = rows.slice(0, MOST_TOLD).join('; ');
  const more = rows.length > MOST_TOLD ? `; and ${rows.length - MOST_TOLD} more` : '';
  return [`${rows.length === 1 ? `1 row ${one}` : `${rows.length} rows ${many}`}: ${told}${more}.`];
}
