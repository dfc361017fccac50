/** The reference coder: `aec`, the command of the library libaec. */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CcsdsCoding } from '../../lib/grib/packing/ccsds/coding.ts';
import { unpackCcsds } from '../../lib/grib/packing/ccsds/unpack.ts';

/** Octets in which the command expects a sample, least significant first. */
const containerOctets = (bitsPerValue: number): number => (bitsPerValue > 16 ? 4 : bitsPerValue > 8 ? 2 : 1);

/** The options of the command for a coding. */
function commandOptions(coding: CcsdsCoding): string[] {
  const mask = coding.optionMaskCode;
  return [
    '-n',
    `${coding.bitsPerValue}`,
    '-j',
    `${coding.blockSampleCount}`,
    '-r',
    `${coding.intervalBlockCount}`,
    ...((mask & 8) === 0 ? ['-N'] : []),
    ...((mask & 16) === 0 ? [] : ['-t']),
  ];
}

function toOctets(samples: readonly number[], bitsPerValue: number): Uint8Array {
  const widthOctets = containerOctets(bitsPerValue);
  const octets = new Uint8Array(samples.length * widthOctets);
  for (const [i, sample] of samples.entries()) {
    for (let o = 0; o < widthOctets; o++) octets[i * widthOctets + o] = Math.floor(sample / 256 ** o) % 256;
  }
  return octets;
}

function fromOctets(octets: Uint8Array, bitsPerValue: number): number[] {
  const widthOctets = containerOctets(bitsPerValue);
  return Array.from({ length: octets.length / widthOctets }, (_, i) =>
    octets.subarray(i * widthOctets, (i + 1) * widthOctets).reduce((sum, octet, o) => sum + octet * 256 ** o, 0),
  );
}

/** Samples and how to code them. */
export interface CoderInput {
  readonly samples: readonly number[];
  readonly coding: CcsdsCoding;
}

/**
 * Codes samples; `folder` is for scratch files. The command reads streams of padded intervals (`-d -p`) but does not write them:
 * they are its streams of single intervals, which end on whole octets, one behind another.
 */
export function code(program: string, folder: string, { samples, coding }: CoderInput): Uint8Array {
  const isPadded = (coding.optionMaskCode & 32) !== 0;
  const pieceCount = isPadded ? coding.blockSampleCount * coding.intervalBlockCount : samples.length;
  const octets: number[] = [];
  for (let i = 0; i < samples.length; i += pieceCount) {
    octets.push(...codePiece(program, folder, { samples: samples.slice(i, i + pieceCount), coding }));
  }
  return Uint8Array.from(octets);
}

function codePiece(program: string, folder: string, { samples, coding }: CoderInput): Uint8Array {
  const [source, target] = [join(folder, 'samples'), join(folder, 'stream')];
  writeFileSync(source, toOctets(samples, coding.bitsPerValue));
  execFileSync(program, [...commandOptions(coding), source, target], { stdio: 'pipe' });
  return new Uint8Array(readFileSync(target));
}

/** What the command itself decodes from a stream; it does not know how many samples are wanted, so the last block is whole. */
export function decodeByCommand(
  program: string,
  folder: string,
  { stream, coding }: { readonly stream: Uint8Array; readonly coding: CcsdsCoding },
): number[] {
  const [source, target] = [join(folder, 'stream'), join(folder, 'decoded')];
  writeFileSync(source, stream);
  const padded = (coding.optionMaskCode & 32) === 0 ? [] : ['-p'];
  execFileSync(program, ['-d', ...commandOptions(coding), ...padded, source, target], { stdio: 'pipe' });
  return fromOctets(new Uint8Array(readFileSync(target)), coding.bitsPerValue);
}

/** Samples of a stream, or the fault. */
export function samplesOf(stream: Uint8Array, coding: CcsdsCoding, count: number): number[] | string {
  const values = new Float64Array(count).fill(NaN);
  const fault = unpackCcsds(stream, coding, { values, scale: { reference: 0, step: 1, factor: 1 } });
  return fault === null ? [...values] : `octet ${fault.octet}: ${fault.what} Expected ${fault.expected}.`;
}
