import { failed, ok, type Result } from '../../../lib/result/index.ts';
import { indexRanges } from '../sources/index-ranges.ts';
import type { FetchTarget } from '../sources/plan-targets.ts';
import { shownAddress } from '../sources/shown-address.ts';
import type { KeptState } from './keep.ts';
import { type Answer, openAnswer } from './open-answer.ts';
import { tooLarge } from './problems.ts';
import type { Workshop } from './request.ts';
import { setbackOf, statusSetback, type Tried } from './setback.ts';

/** Largest index read: one of an ensemble of fifty is about 2 MB. */
const MOST_INDEX_OCTETS = 16_000_000;

/** The beginning of a target: the whole file, or the parts its index names. */
export async function freshState(target: FetchTarget, shop: Workshop): Promise<Tried<KeptState>> {
  const nothing = { missing: [], validators: null, isComplete: false };
  if (target.index === null)
    return { ok: true, value: { ...nothing, ranges: [{ startOctet: 0, endOctet: null }], messageCount: null } };
  const { index } = target;
  const text = await readText(index.url, shop);
  if (!text.ok) return text;
  const read = indexRanges(text.value, { ...index, where: shownAddress(index.url) });
  if (!read.ok) return { ok: false, setback: setbackOf(read.problems[0]) };
  const { ranges, messageCount, missing } = read.value;
  const missingNames = missing.map(({ quantity }) => quantity);
  return {
    ok: true,
    value: {
      ...nothing,
      ranges: ranges.map((range) => ({ ...range })),
      messageCount,
      missing: [...new Set(missingNames)],
    },
  };
}

async function readText(address: string, shop: Workshop): Promise<Tried<string>> {
  const { connectMs, idleMs } = shop.limits;
  const headers = { 'cache-control': 'no-cache' };
  const opened = await openAnswer(
    { address, method: 'GET', headers, connectMs, idleMs, signal: shop.signal },
    shop.world,
  );
  if (!opened.ok) return { ok: false, setback: setbackOf(opened.problems[0]) };
  const answer = opened.value;
  if (answer.status !== 200) {
    answer.close();
    return { ok: false, setback: statusSetback(address, answer, shop.world.nowEpochMs()) };
  }
  const whole = await readAll(answer, address, shop);
  return whole.ok
    ? { ok: true, value: new TextDecoder().decode(whole.value) }
    : { ok: false, setback: setbackOf(whole.problems[0]) };
}

async function readAll(answer: Answer, address: string, shop: Workshop): Promise<Result<Uint8Array>> {
  const pieces: Uint8Array[] = [];
  let sizeOctets = 0;
  for (;;) {
    const piece = await answer.next();
    if (!piece.ok) return piece;
    if (piece.value === null) return ok(new Uint8Array(Buffer.concat(pieces)));
    pieces.push(piece.value);
    sizeOctets += piece.value.length;
    if (sizeOctets > MOST_INDEX_OCTETS) {
      answer.close();
      return failed(tooLarge(address, MOST_INDEX_OCTETS));
    }
    shop.meter.came(piece.value.length);
    await shop.pace.spend(piece.value.length, shop.signal);
  }
}
