import { matchField, quantityOf } from '../../../lib/forecast/index.ts';
import {
  countMissing,
  formatGrid,
  formatLevel,
  formatMember,
  formatPacking,
  formatParameter,
  formatParameterCode,
  formatValidity,
  type GribField,
  scanGrib,
} from '../../../lib/grib/index.ts';
import type { Problem } from '../../../lib/result/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import type { CommandIo } from '../command.ts';
import { takeApart, WrongUse } from './arguments.ts';
import { readFiles, reportProblems } from './read-files.ts';

export const LIST_HELP = `slatch forecast list FILE… [--json]

  One row per field: number, edition, parameter (WMO codes and name), level, base time, valid time or interval,
  member, grid, packing, points, missing values, and what Slatch reads from it.

  slatch forecast list gfs.grib2
`;

/** `slatch forecast list`. */
export async function listFields(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length === 0) throw new WrongUse('no FILE is given.');
  const { files, problems } = await readFiles(io, given.files);
  const found: Problem[] = [...problems];
  const rows = files.flatMap((file) => {
    const scan = scanGrib(file.bytes, file.name);
    found.push(...scan.problems);
    return scan.fields.map((field) => rowOf(file.bytes, field));
  });
  if (given.flags.has('json')) io.out(`${JSON.stringify({ fields: rows, problems: found })}\n`);
  else for (const row of rows) io.out(`${textOf(row)}\n`);
  reportProblems(io, found);
  return found.length > 0 ? 1 : 0;
}

type Row = ReturnType<typeof rowOf>;

function rowOf(bytes: Uint8Array, field: GribField) {
  const match = matchField(field);
  return {
    file: field.fileName,
    field: field.fieldNumber,
    message: field.messageNumber,
    submessage: field.submessageNumber,
    edition: field.edition,
    parameterCode: formatParameterCode(field.parameter),
    parameter: formatParameter(field),
    level: formatLevel(field),
    baseUtc: formatUtc(field.referenceEpochMs),
    valid: formatValidity(field),
    ...validUtc(field),
    member: formatMember(field),
    grid: formatGrid(field),
    packing: formatPacking(field),
    points: field.pointCount,
    missing: countMissing(bytes, field),
    usedAs: match === null || field.support !== null ? null : quantityOf(match.row.quantity).name,
    cannotBeUsed: field.support?.what ?? null,
  };
}

function validUtc({ validity }: GribField) {
  if (validity.kind === 'instant') return { validUtc: formatUtc(validity.validEpochMs) };
  if (validity.kind === 'unknown') return {};
  const { startEpochMs, endEpochMs, statistic } = validity;
  return { startUtc: formatUtc(startEpochMs), endUtc: formatUtc(endEpochMs), statistic };
}

function textOf(row: Row): string {
  const parts = [
    `${row.field} (${row.message}.${row.submessage})`,
    `edition ${row.edition}`,
    `${row.parameterCode} ${row.parameter}`,
    row.level,
    `base ${row.baseUtc}`,
    row.valid,
    row.member === '' ? 'single forecast' : row.member,
    row.grid,
    row.packing,
    `${row.points} points`,
    row.missing === null ? 'missing unknown' : `${row.missing} missing`,
    row.usedAs === null ? 'not used' : `used as ${row.usedAs}`,
  ];
  return `${row.file}: ${parts.join('; ')}`;
}
