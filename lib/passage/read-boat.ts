import type { z } from 'zod';
import {
  boatProblems,
  DEFAULT_HANDLINGS,
  DEFAULT_SAIL_STATES,
  type Boat,
  type Handling,
  type SailState,
} from '../boat/index.ts';
import { missing } from '../jobs/index.ts';
import { okUnless, type Problem, type Result } from '../result/index.ts';
import type { boatFile } from './passage-file.ts';

export type BoatFile = z.infer<typeof boatFile>;
type HandlingFile = NonNullable<BoatFile['handlings']>[number];
type SailStateFile = NonNullable<BoatFile['sailStates']>[number];

const DEFAULT_NAME = 'The boat';
export const DEFAULT_INSTRUMENT_HEIGHT_M = 15;
const OWN = 'own figures';
const UNCAPPED_KN = 20;

/**
 * The boat: usual sail states and handlings with the file's own laid over them by id.
 *
 * @returns the boat, or `passage.missing`, `passage.twice` and the problems of `boatProblems`
 */
export function readBoat(file: BoatFile, where: string): Result<Boat> {
  const states = (file.sailStates ?? []).map((state, index) => sailStateFrom(state, `${where}.sailStates[${index}]`));
  const handlings = (file.handlings ?? []).map((own, index) => handlingFrom(own, `${where}.handlings[${index}]`));
  const boat: Boat = {
    name: file.name ?? DEFAULT_NAME,
    instrumentHeightM: file.instrumentHeightM ?? DEFAULT_INSTRUMENT_HEIGHT_M,
    sailStates: laidOver(DEFAULT_SAIL_STATES, states),
    speedTables: file.speedTables,
    handlings: laidOver(DEFAULT_HANDLINGS, handlings),
  };
  return okUnless(
    [
      ...[...states, ...handlings].flatMap((made) => (made.ok ? [] : made.problems)),
      ...twiceProblems(file.sailStates ?? [], `${where}.sailStates`),
      ...twiceProblems(file.handlings ?? [], `${where}.handlings`),
      ...boatProblems(boat, where, ({ id }) => handlingPlace(file, id)),
    ],
    () => boat,
  );
}

/** Where a handling stands in the file; a usual one the file does not name, by its id. */
function handlingPlace({ handlings = [] }: BoatFile, id: string): string {
  const index = handlings.findIndex((own) => own.id === id);
  return index < 0 ? `handlings.${id}` : `handlings[${index}]`;
}

/** Paths of the boat's figures that a file leaves to their default. */
export const defaultsOfBoat = (file: BoatFile): readonly string[] => [
  ...(['name', 'instrumentHeightM'] as const).filter((key) => file[key] === undefined).map((key) => `boat.${key}`),
  ...DEFAULT_SAIL_STATES.filter(({ id }) => !(file.sailStates ?? []).some((own) => own.id === id)).map(
    ({ id }) => `boat.sailStates.${id}`,
  ),
  ...DEFAULT_HANDLINGS.filter(({ id }) => !(file.handlings ?? []).some((own) => own.id === id)).map(
    ({ id }) => `boat.handlings.${id}`,
  ),
];

function sailStateFrom(file: SailStateFile, where: string): Result<SailState> {
  const base = DEFAULT_SAIL_STATES.find(({ id }) => id === file.id);
  const { name = file.id, mainsail, headsail, areaRatio, closestTwaDeg } = { ...base, ...file };
  const lacking = Object.entries({ mainsail, headsail, areaRatio, closestTwaDeg }).filter(
    ([, value]) => value === undefined,
  );
  return okUnless(
    lacking.map(([key]) => missing('passage.missing', `${where}.${key}`, 'it, as this is not one of the usual states')),
    () => {
      if (mainsail === undefined || headsail === undefined || areaRatio === undefined || closestTwaDeg === undefined)
        throw new Error('a problem was lost');
      return { id: file.id, name, mainsail, headsail, areaRatio, closestTwaDeg };
    },
  );
}

function handlingFrom(file: HandlingFile, where: string): Result<Handling> {
  const base = DEFAULT_HANDLINGS.find(({ id }) => id === file.id);
  const heading = headingOf(file) ?? base?.heading;
  const sailStates = file.sailStates ?? base?.sailStates;
  const trueWindKn = file.limits?.trueWindKn ?? base?.limits.trueWindKn;
  const seaHeightM = file.limits?.seaHeightM ?? base?.limits.seaHeightM;
  const needed = { twaDeg: heading, sailStates, 'limits.trueWindKn': trueWindKn, 'limits.seaHeightM': seaHeightM };
  const lacking = Object.entries(needed).filter(([, value]) => value === undefined);
  return okUnless(
    [
      ...lacking.map(([key]) =>
        missing('passage.missing', `${where}.${key}`, 'it, as this is not one of the usual ones'),
      ),
      ...bothHeadings(file, where),
    ],
    () => {
      if (!heading || !sailStates || !trueWindKn || !seaHeightM) throw new Error('a problem was lost');
      return {
        id: file.id,
        name: file.name ?? base?.name ?? file.id,
        sailStates,
        heading,
        ...motionOf(file, base),
        limits: { trueWindKn, seaHeightM },
        provenance: OWN,
      };
    },
  );
}

type Motion = Pick<Handling, 'speedRatio' | 'speedLeastKn' | 'speedMostKn' | 'driftRatio' | 'settleMin'>;

/** Figures of a handling of the file's own; minutes to settle: common practice, no source. */
const NEW_MOTION: Motion = {
  speedRatio: 1,
  speedLeastKn: 0,
  speedMostKn: UNCAPPED_KN,
  driftRatio: 0,
  settleMin: 10,
};

function motionOf(file: HandlingFile, base: Motion = NEW_MOTION): Motion {
  return {
    speedRatio: file.speedRatio ?? base.speedRatio,
    speedLeastKn: file.speedLeastKn ?? base.speedLeastKn,
    speedMostKn: file.speedMostKn ?? base.speedMostKn,
    driftRatio: file.driftRatio ?? base.driftRatio,
    settleMin: file.settleMin ?? base.settleMin,
  };
}

function headingOf(file: HandlingFile): Handling['heading'] | undefined {
  if (file.heading === 'course') return { kind: 'course' };
  return file.twaDeg === undefined ? undefined : { kind: 'wind-angle', twaDeg: file.twaDeg };
}

const bothHeadings = (file: HandlingFile, where: string): readonly Problem[] =>
  file.heading === undefined || file.twaDeg === undefined
    ? []
    : [
        {
          code: 'passage.two-headings',
          where,
          what: 'The handling has both a course and an angle to the wind.',
          expected: 'either "heading": "course" or "twaDeg"',
          remedy: 'Take one of them out.',
        },
      ];

/** Problems of entries that share an id. */
export function twiceProblems(entries: readonly { readonly id: string }[], where: string): readonly Problem[] {
  const ids = entries.map(({ id }) => id);
  return ids.flatMap((id, index) =>
    ids.indexOf(id) === index
      ? []
      : [
          {
            code: 'passage.twice',
            where: `${where}[${index}].id`,
            what: `"${id}" is used twice.`,
            expected: 'a different id for each',
            remedy: 'Rename one of them.',
          },
        ],
  );
}

/** Defaults with the file's own in the place of those of the same id; further ones after them. */
function laidOver<T extends { readonly id: string }>(defaults: readonly T[], made: readonly Result<T>[]): readonly T[] {
  const own = made.flatMap((one) => (one.ok ? [one.value] : []));
  const kept = defaults.map((usual) => own.find(({ id }) => id === usual.id) ?? usual);
  return [...kept, ...own.filter(({ id }) => !defaults.some((usual) => usual.id === id))];
}
