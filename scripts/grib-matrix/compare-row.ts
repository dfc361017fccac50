/** A row of the matrix: its messages as this program reads them against what ecCodes reads from them. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readReferenceFile, type ReadReference, type ReferenceField } from '../compare-grib/eccodes.ts';
import { compareField, type Outcome } from '../compare-grib/outcome.ts';
import { type GribField, scanGrib } from '../../lib/grib/index.ts';
import type { AskedHeader } from './matrix-case.ts';

/** A message to compare; `asked` says what its header must be. */
export interface MatrixMessage {
  readonly octets: Uint8Array;
  readonly asked: AskedHeader;
}

/** What came of a message; `not-as-asked`: the message is not what was asked for, and proves nothing about it. */
export interface MatrixOutcome extends Omit<Outcome, 'kind'> {
  readonly kind: Outcome['kind'] | 'not-as-asked';
}

/** Every message holds one field. The reference reads all of them in one run where that finds them all. */
export function compareMessages(
  messages: readonly MatrixMessage[],
  reference: { readonly scratch: string; readonly read: ReadReference },
): MatrixOutcome[] {
  const scans = messages.map(({ octets }) => scanGrib(octets, 'matrix'));
  const isPlaced = scans.every(({ fields }) => fields.every(({ obstacles }) => obstacles.grid === null));
  const theirs = readAll(messages, isPlaced ? 'points' : 'values', reference);
  return messages.map(({ octets, asked }, i) => {
    const { fields, problems } = scans[i] ?? { fields: [], problems: [] };
    const [field] = fields;
    if (field === undefined || fields.length > 1 || problems.length > 0) {
      return notAsAsked('differing', `not one whole message: ${problems[0]?.what ?? `${fields.length} fields`}`);
    }
    const wrong = wrongHeader(field, asked);
    if (wrong !== null) return notAsAsked('not-as-asked', wrong);
    return compareField(octets, field, theirs[i] ?? 'the reference found no field');
  });
}

const notAsAsked = (kind: MatrixOutcome['kind'], reason: string): MatrixOutcome => ({
  kind,
  reason,
  largestAbsolute: 0,
  largestRelative: 0,
  largestPositionDeg: 0,
});

function readAll(
  messages: readonly MatrixMessage[],
  ask: 'points' | 'values',
  { scratch, read }: { readonly scratch: string; readonly read: ReadReference },
): (ReferenceField | string | undefined)[] {
  const path = join(scratch, 'all.grib');
  writeFileSync(path, Buffer.concat(messages.map(({ octets }) => octets)));
  const fields = readReferenceFile(path, ask);
  if (fields.length === messages.length) return fields;
  return messages.map(({ octets }) => {
    const found = read(octets, ask);
    return typeof found === 'string' ? found : found[0];
  });
}

/** What the header says otherwise than asked, or null. */
function wrongHeader(field: GribField, asked: AskedHeader): string | null {
  const { packing, grid } = field;
  const pairs: readonly (readonly [name: string, found: number | null, wanted: number | null | undefined])[] = [
    ['packing template', packing.templateNumber, asked.templateNumber],
    ['bits per value', packing.bitsPerValue, asked.bitsPerValue ?? undefined],
    ['product template', field.productTemplate, asked.productTemplate],
    ['scanning mode', grid.kind === 'unsupported' ? null : grid.scanningMode, asked.scanningMode],
  ];
  const wrong = pairs.find(([, found, wanted]) => wanted !== undefined && found !== wanted);
  return wrong === undefined ? null : `${wrong[0]} ${wrong[1]} instead of ${wrong[2]}`;
}
