import { open } from 'node:fs/promises';
import type { Problem } from '../../../lib/result/index.ts';
import { packingOf } from '../packing/unpack.ts';
import type { FetchTarget } from '../sources/plan-targets.ts';
import { contentLength, isCoded, readContentRange } from './content-range.ts';
import type { Kept, KeptState } from './keep.ts';
import { type Answer, openAnswer } from './open-answer.ts';
import { fileChanged, lineBroken, noRanges, notGrib, tooLarge, wrongPart } from './problems.ts';
import { promisedOctets, type RangePlace, withLastEnd } from './range-place.ts';
import { again, setbackOf, statusSetback, stop, type Tried } from './setback.ts';
import type { Workshop } from './request.ts';
import { isSameState, validatorsOf } from './validators.ts';

export interface RangeTask {
  readonly target: FetchTarget;
  readonly fileNumber: number;
  readonly kept: Kept;
  readonly state: KeptState;
  readonly place: RangePlace;
}

/** What an answer turns out to be: the octets wanted, beginning with `fromOctet`. */
interface Opening {
  readonly state: KeptState;
  readonly fromOctet: number;
  /** First octet not wanted; null: all to the end of the answer. */
  readonly endOctet: number | null;
  /** What was there before is of no use. */
  readonly isAnew: boolean;
}

/**
 * Asks for the rest of one range and writes what comes. What is on disk stays of one state of the file: after If-Range a
 * changed file comes whole (RFC 9110 §13.1.5), and is begun anew.
 */
export async function takeRange(task: RangeTask, shop: Workshop): Promise<Tried<KeptState>> {
  const { target, place, state } = task;
  const isPlain = target.index === null && place.fromOctet === 0;
  const { connectMs, idleMs } = shop.limits;
  const opened = await openAnswer(
    {
      address: target.url,
      method: 'GET',
      headers: { 'cache-control': 'no-cache', ...(isPlain ? {} : rangeHeaders(place, state)) },
      connectMs,
      idleMs,
      signal: shop.signal,
    },
    shop.world,
  );
  if (!opened.ok) return { ok: false, setback: setbackOf(opened.problems[0]) };
  const answer = opened.value;
  const opening = await openingOf(answer, { ...task, isPlain }, shop);
  if (!opening.ok) {
    answer.close();
    return opening;
  }
  try {
    return await takeBody(answer, { task, opening: opening.value }, shop);
  } finally {
    answer.close();
  }
}

function rangeHeaders({ fromOctet, endOctet }: RangePlace, { validators }: KeptState): Record<string, string> {
  const range = { range: `bytes=${fromOctet}-${endOctet === null ? '' : endOctet - 1}` };
  return typeof validators?.strong === 'string' ? { ...range, 'if-range': validators.strong } : range;
}

async function openingOf(
  answer: Answer,
  task: RangeTask & { isPlain: boolean },
  shop: Workshop,
): Promise<Tried<Opening>> {
  const { target, kept } = task;
  if (answer.status === 206 && !task.isPlain) return partOpening(answer, task);
  if (answer.status === 200 && target.index === null) return wholeOpening(answer, task);
  if (answer.status === 200) {
    const now = validatorsOf(answer.headers, contentLength(answer.headers));
    const before = task.state.validators;
    if (before === null || isSameState(before, now)) return stop(noRanges(target.url));
    await kept.drop();
    return again(fileChanged(target.url));
  }
  if (answer.status === 206 || answer.status === 416) {
    await kept.drop();
    return again(wrongPart(target.url));
  }
  return { ok: false, setback: statusSetback(target.url, answer, shop.world.nowEpochMs()) };
}

/** 206: must be the part asked for, of the state of the file known before. */
async function partOpening(answer: Answer, { target, kept, place, state }: RangeTask): Promise<Tried<Opening>> {
  const part = readContentRange(answer.headers.get('content-range'));
  if (part === null || part.startOctet !== place.fromOctet || isCoded(answer.headers)) {
    await kept.drop();
    return again(wrongPart(target.url));
  }
  const now = validatorsOf(answer.headers, part.wholeOctets);
  if (state.validators !== null && !isSameState(state.validators, now)) {
    await kept.drop();
    return again(fileChanged(target.url));
  }
  const ranges = withLastEnd(state.ranges, part.wholeOctets);
  const endOctet = place.endOctet ?? part.wholeOctets ?? part.endOctet;
  const opened = { ...state, ranges, validators: state.validators ?? now };
  return { ok: true, value: { state: opened, fromOctet: place.fromOctet, endOctet, isAnew: false } };
}

/** 200 to a wish for the whole file, or for its rest where the source sends no parts or the file has changed. */
function wholeOpening(answer: Answer, { state }: RangeTask): Tried<Opening> {
  const wholeOctets = contentLength(answer.headers);
  const now = validatorsOf(answer.headers, wholeOctets);
  // Packed for the way: places in what comes are not places in what is sent, so nothing can be resumed.
  const validators = isCoded(answer.headers) ? { ...now, strong: null } : now;
  const ranges = [{ startOctet: 0, endOctet: wholeOctets }];
  return {
    ok: true,
    value: { state: { ...state, ranges, validators }, fromOctet: 0, endOctet: wholeOctets, isAnew: true },
  };
}

async function takeBody(
  answer: Answer,
  { task, opening }: { task: RangeTask; opening: Opening },
  shop: Workshop,
): Promise<Tried<KeptState>> {
  const { target, kept, place } = task;
  const promised = promisedOctets(opening.state.ranges);
  const isTooMuch = (octets: number): boolean => shop.otherOctets() + octets > shop.limits.mostOctets;
  if (promised !== null && isTooMuch(promised)) return stop(tooLarge(target.url, shop.limits.mostOctets));
  const head = await readHead(answer);
  if (!head.ok) return head;
  const isStart = opening.fromOctet === (opening.isAnew ? 0 : place.startOctet);
  if (isStart && !looksRight(head.value, target)) {
    if (target.index !== null) await kept.drop();
    return stop(notGrib(target.url, whatItIs(answer, head.value)));
  }
  // A page of the harbour network must not cost what is there: only now is it given up.
  const beforeOctets = opening.isAnew ? 0 : place.beforeOctets + opening.fromOctet - place.startOctet;
  await kept.cut(beforeOctets);
  await kept.writeState(opening.state);
  const file = await open(kept.partPath, 'a');
  try {
    const write = async (octets: Uint8Array, atOctet: number): Promise<Problem | null> => {
      if (octets.length > 0) await file.writeFile(octets);
      const gotOctets = beforeOctets + atOctet - opening.fromOctet;
      shop.meter.setFile(task.fileNumber, { gotOctets, allOctets: promised });
      return isTooMuch(gotOctets) ? tooLarge(target.url, shop.limits.mostOctets) : null;
    };
    const taken = await readOut(answer, { opening, head: head.value, write, url: target.url }, shop);
    return taken.ok ? await ended(taken.value, opening, kept) : taken;
  } finally {
    await file.close();
  }
}

interface ReadingOut {
  readonly opening: Opening;
  /** Octets already read. */
  readonly head: Uint8Array;
  /** Writes octets that end at a place of the file; a problem ends the reading. */
  readonly write: (octets: Uint8Array, atOctet: number) => Promise<Problem | null>;
  readonly url: string;
}

/** Reads an answer to the end of what is wanted, piece by piece; the place where it ended. */
async function readOut(
  answer: Answer,
  { opening, head, write, url }: ReadingOut,
  shop: Workshop,
): Promise<Tried<number>> {
  const { endOctet } = opening;
  let atOctet = opening.fromOctet;
  for (let piece: Uint8Array | null = head; piece !== null;) {
    const wanted: Uint8Array = endOctet === null ? piece : piece.subarray(0, Math.max(0, endOctet - atOctet));
    atOctet += wanted.length;
    shop.meter.came(piece.length);
    const problem = await write(wanted, atOctet);
    if (problem !== null) return stop(problem);
    if (endOctet !== null && atOctet >= endOctet) return { ok: true, value: atOctet };
    await shop.pace.spend(piece.length, shop.signal);
    const next = await answer.next();
    if (!next.ok) return { ok: false, setback: setbackOf(next.problems[0]) };
    piece = next.value;
  }
  return endOctet === null ? { ok: true, value: atOctet } : again(lineBroken(url, 'it ended before its time'));
}

/** The range is there; one whose end was not known ends here. */
async function ended(atOctet: number, { state }: Opening, kept: Kept): Promise<Tried<KeptState>> {
  const known = { ...state, ranges: withLastEnd(state.ranges, atOctet) };
  await kept.writeState(known);
  return { ok: true, value: known };
}

const HEAD_OCTETS = 4;

/** The first octets, at least four where there are as many. */
async function readHead(answer: Answer): Promise<Tried<Uint8Array>> {
  let octets = new Uint8Array();
  while (octets.length < HEAD_OCTETS) {
    const piece = await answer.next();
    if (!piece.ok) return { ok: false, setback: setbackOf(piece.problems[0]) };
    if (piece.value === null) break;
    octets = new Uint8Array(Buffer.concat([octets, piece.value]));
  }
  return { ok: true, value: octets };
}

const isGribStart = (octets: Uint8Array): boolean => 'GRIB'.split('').every((c, i) => octets[i] === c.charCodeAt(0));

/** Whether a range begins as it must: with a message, or, a whole file, packed. */
function looksRight(octets: Uint8Array, target: FetchTarget): boolean {
  return isGribStart(octets) || (target.index === null && packingOf(octets) !== null);
}

function whatItIs(answer: Answer, octets: Uint8Array): { type: string; start: string } {
  const start = new TextDecoder()
    .decode(octets.subarray(0, 60))
    .replaceAll(/[^\x20-\x7e]+/g, ' ')
    .trim();
  return { type: (answer.headers.get('content-type') ?? '').slice(0, 60), start };
}
