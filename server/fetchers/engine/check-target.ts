import { readFile, writeFile } from 'node:fs/promises';
import { matchField, type QuantityId } from '../../../lib/forecast/index.ts';
import { scanGrib } from '../../../lib/grib/index.ts';
import { failed, ok, okUnless, type Problem, type Result } from '../../../lib/result/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { unpack } from '../packing/unpack.ts';
import type { FetchTarget } from '../sources/plan-targets.ts';
import { shownAddress } from '../sources/shown-address.ts';
import type { Kept, KeptState } from './keep.ts';
import { notGrib, nothingRead, notWhole, otherCount, otherCycle, wrongLength } from './problems.ts';
import { promisedOctets } from './range-place.ts';
import type { Workshop } from './request.ts';

/** What is in a file that was found good. */
export interface CheckedTarget {
  readonly sizeOctets: number;
  readonly fieldCount: number;
  readonly quantities: readonly QuantityId[];
}

/** Octets that a centre may pad the last message with (GRIB edition 1 is padded to multiples of 120). */
const MOST_PADDING_OCTETS = 128;

/**
 * Checks a file that has come: as long as promised; GRIB from its first octet to 7777 at its end; every message read
 * without a problem; as many messages as the index lists; of the cycle asked for; with something Slatch reads. A packed
 * one is unpacked on disk. What was found good is marked so.
 */
export async function checkTarget(
  { target, kept }: { target: FetchTarget; kept: Kept },
  state: KeptState,
  shop: Pick<Workshop, 'limits' | 'otherOctets'>,
): Promise<Result<CheckedTarget>> {
  const came = new Uint8Array(await readFile(kept.partPath));
  const promised = promisedOctets(state.ranges);
  if (!state.isComplete && promised !== null && came.length !== promised)
    return failed(wrongLength(target.url, { gotOctets: came.length, promisedOctets: promised }));
  if (state.ranges.length === 0) return ok({ sizeOctets: 0, fieldCount: 0, quantities: [] });
  const mostOctets = Math.max(0, shop.limits.mostOctets - shop.otherOctets());
  const octets = unpack(came, shownAddress(target.url), mostOctets);
  if (!octets.ok) return octets;
  const checked = checkGrib(octets.value, target, state.messageCount);
  if (!checked.ok) return checked;
  if (octets.value !== came) await writeFile(kept.partPath, octets.value);
  await kept.writeState({ ...state, isComplete: true });
  return checked;
}

/** Checks octets that should be a GRIB file. */
function checkGrib(
  octets: Uint8Array,
  target: Pick<FetchTarget, 'url' | 'cycleEpochMs'>,
  messageCount: number | null,
): Result<CheckedTarget> {
  const { url } = target;
  const said = (from: number, to: number): string => new TextDecoder('latin1').decode(octets.subarray(from, to));
  if (said(0, 4) !== 'GRIB')
    return failed(notGrib(url, { type: '', start: said(0, 40).replaceAll(/[^\x20-\x7e]+/g, ' ') }));
  if (
    !said(Math.max(0, octets.length - MOST_PADDING_OCTETS), octets.length)
      .replace(/\0+$/, '')
      .endsWith('7777')
  )
    return failed(notWhole(url));
  const { fields, problems } = scanGrib(octets, shownAddress(url));
  if (problems.length > 0) return okUnless(problems, () => empty);
  const foundCount = new Set(fields.map(({ messageNumber }) => messageNumber)).size;
  if (messageCount !== null && foundCount !== messageCount)
    return failed(otherCount(url, { foundCount, wantedCount: messageCount }));
  const matched = fields.flatMap((field) => matchField(field) ?? []);
  if (matched.length === 0) return failed(nothingRead(url));
  const others = matched.filter(({ baseEpochMs }) => baseEpochMs !== (target.cycleEpochMs ?? baseEpochMs));
  const [other] = others;
  if (other !== undefined && target.cycleEpochMs !== null) return failed(cycleProblem(url, other, target.cycleEpochMs));
  const quantities = [...new Set(matched.map(({ row }) => row.quantity))];
  return ok({ sizeOctets: octets.length, fieldCount: fields.length, quantities });
}

const empty: CheckedTarget = { sizeOctets: 0, fieldCount: 0, quantities: [] };

const cycleProblem = (url: string, found: { baseEpochMs: number }, wantedEpochMs: number): Problem =>
  otherCycle(url, { found: formatUtc(found.baseEpochMs), wanted: formatUtc(wantedEpochMs) });
