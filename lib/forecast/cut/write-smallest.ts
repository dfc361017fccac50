/** Planned fields to octets, the shorter of two ways. */
import { type GribMessageSpec, writeGrib2File, writeGrib2Message } from '../../grib/index.ts';
import type { CutRequest } from './request.ts';
import type { PlannedField } from './step-fields.ts';
import { trimField } from './trim-field.ts';

/** Octets, and whether points outside the corridor are missing in them. */
export interface WrittenCut {
  readonly bytes: Uint8Array;
  readonly isMasked: boolean;
}

/** With points outside the corridor missing or as they are, whichever is shorter for some fields from all over the cut. */
export function writeSmallest(
  fields: readonly PlannedField[],
  { layout = 'shared', outside = 'smallest', trimEachStep = false }: CutRequest,
): WrittenCut {
  const write = (specs: readonly GribMessageSpec[]): Uint8Array =>
    layout === 'shared' ? writeGrib2File(specs) : joinedMessages(specs.map(writeGrib2Message));
  const wholes = (some: readonly PlannedField[]): Uint8Array => write(some.map(({ spec }) => spec));
  const masked = (some: readonly PlannedField[]): Uint8Array =>
    write(some.map(trimEachStep ? trimmedSpec : maskedSpec));
  const isMaskable = outside === 'smallest' && fields.some(({ mask }) => mask !== null);
  const trial = isMaskable ? trialFields(fields) : [];
  const isMasked = isMaskable && masked(trial).length < wholes(trial).length;
  return { bytes: isMasked ? masked(fields) : wholes(fields), isMasked };
}

/** Fields tried in both ways: all of a small cut, otherwise runs of neighbours, which share a bitmap as they will. */
const TRIAL_RUN_COUNT = 12;
const TRIAL_RUN_LENGTH_COUNT = 8;

function trialFields(fields: readonly PlannedField[]): readonly PlannedField[] {
  const apartCount = Math.max(TRIAL_RUN_LENGTH_COUNT, Math.floor(fields.length / TRIAL_RUN_COUNT));
  return fields.filter((_, i) => i % apartCount < TRIAL_RUN_LENGTH_COUNT);
}

function trimmedSpec({ spec, mask }: PlannedField): GribMessageSpec {
  if (mask === null) return spec;
  const trimmed = trimField({ grid: spec.grid, values: spec.values, mask });
  const values = trimmed.values.map((value, i) => (trimmed.mask[i] === 1 ? value : Number.NaN));
  return { ...spec, grid: trimmed.grid, values };
}

const maskedSpec = ({ spec, mask }: PlannedField): GribMessageSpec =>
  mask === null ? spec : { ...spec, values: spec.values.map((value, i) => (mask[i] === 1 ? value : Number.NaN)) };

function joinedMessages(messages: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(messages.reduce((sum, { length }) => sum + length, 0));
  let atOctet = 0;
  for (const message of messages) {
    bytes.set(message, atOctet);
    atOctet += message.length;
  }
  return bytes;
}
