import { didYouMean, type Problem } from '../result/index.ts';
import type { Boat, Handling, Levels, SpeedRow } from './boat.ts';

/**
 * Everything wrong with a boat as a whole: references, ranges, speed tables.
 *
 * @param where path of the boat inside its document, named in the problems
 * @param handlingPlace path of a handling below it, by its place in the boat's list: that of the document may be another
 */
export function boatProblems(
  boat: Boat,
  where: string,
  handlingPlace: (handling: Handling, index: number) => string = (_, index) => `handlings[${index}]`,
): readonly Problem[] {
  const stateIds = boat.sailStates.map(({ id }) => id);
  return [
    ...tablePresenceProblems(boat, where),
    ...Object.entries(boat.speedTables).flatMap(([id, rows]) => [
      ...(stateIds.includes(id) ? [] : [unknownState(id, stateIds, `${where}.speedTables`)]),
      ...rows.flatMap((row, index) => rowProblems(row, `${where}.speedTables.${id}[${index}]`)),
      ...(rows.length > 0 ? [] : [emptyTable(`${where}.speedTables.${id}`)]),
      ...repeatedRows(rows, `${where}.speedTables.${id}`),
    ]),
    ...boat.handlings.flatMap((handling, index) =>
      handlingProblems(handling, stateIds, `${where}.${handlingPlace(handling, index)}`),
    ),
  ];
}

const handlingProblems = (
  { sailStates, limits }: Handling,
  stateIds: readonly string[],
  where: string,
): readonly Problem[] => [
  ...sailStates.filter((id) => !stateIds.includes(id)).map((id) => unknownState(id, stateIds, `${where}.sailStates`)),
  ...levelProblems(limits.trueWindKn, `${where}.limits.trueWindKn`),
  ...levelProblems(limits.seaHeightM, `${where}.limits.seaHeightM`),
];

function tablePresenceProblems(boat: Boat, where: string): readonly Problem[] {
  if (boat.sailStates.some(({ id }) => boat.speedTables[id] !== undefined)) return [];
  return [
    {
      code: 'boat.no-speed-table',
      where: `${where}.speedTables`,
      what: 'No sail state has a speed table.',
      expected: 'a table for the fullest sail state at least',
      remedy: 'Give rows of true wind angle, true wind speed and boat speed.',
    },
  ];
}

const emptyTable = (where: string): Problem => ({
  code: 'boat.speed-table-empty',
  where,
  what: 'The speed table has no rows.',
  expected: 'one row at least',
  remedy: 'Leave the table out to have speeds estimated from sail area.',
});

function unknownState(id: string, known: readonly string[], where: string): Problem {
  const near = didYouMean(id, known);
  return {
    code: 'boat.sail-state-unknown',
    where,
    what: `There is no sail state "${id}".`,
    expected: `one of ${known.join(', ')}`,
    remedy: near === null ? 'Use the id of a sail state of this boat.' : `Did you mean "${near}"?`,
  };
}

/** Problems of one row of a speed table: angle 0-180, wind above 0, speed not negative, all finite. */
export function rowProblems(row: SpeedRow, where: string): readonly Problem[] {
  const ranges = [
    ['twaDeg', row.twaDeg >= 0 && row.twaDeg <= 180, 'an angle from 0 to 180 degrees'],
    ['twsKn', row.twsKn > 0 && row.twsKn <= 200, 'a wind above 0 and up to 200 kn'],
    ['boatSpeedKn', row.boatSpeedKn >= 0 && row.boatSpeedKn <= 60, 'a speed from 0 to 60 kn'],
  ] as const;
  return ranges
    .filter(([, fits]) => !fits)
    .map(([key, , expected]) => ({
      code: 'boat.speed-row-range',
      where: `${where}.${key}`,
      what: `${row[key]} is outside its range.`,
      expected,
      remedy: 'Correct the row or leave it out.',
    }));
}

/** Two rows of one angle and wind: the table would hold two speeds for one wind. */
export function repeatedRows(rows: readonly SpeedRow[], where: string): readonly Problem[] {
  const seen = new Set<string>();
  const problems: Problem[] = [];
  for (const [index, row] of rows.entries()) {
    const key = `${row.twaDeg} ${row.twsKn}`;
    if (seen.has(key)) problems.push(repeatedRow(row, `${where}[${index}]`));
    seen.add(key);
  }
  return problems;
}

const repeatedRow = (row: SpeedRow, where: string): Problem => ({
  code: 'boat.speed-row-twice',
  where,
  what: `There are two rows for ${row.twaDeg}° at ${row.twsKn} kn.`,
  expected: 'one row for each angle and wind',
  remedy: 'Keep the one that is right.',
});

function levelProblems(levels: Levels, where: string): readonly Problem[] {
  if (levels.ideal >= 0 && levels.ideal <= levels.caution && levels.caution <= levels.noGo) return [];
  return [
    {
      code: 'boat.levels-order',
      where,
      what: `The levels ${levels.ideal}, ${levels.caution}, ${levels.noGo} do not rise.`,
      expected: '0 ≤ ideal ≤ caution ≤ noGo',
      remedy: 'Put them in order; no-go is the limit.',
    },
  ];
}
