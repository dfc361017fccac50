import { MOST_SUMMARY_CHARACTERS } from './digest/index.ts';
import { bodyRoomCount, PART_LIMITS } from './frames/write-frames.ts';
import type { SenderMark } from './message.ts';

/** Who sends it and in parts of which length: all that heads, checks and seal depend on. */
export interface DigestFrame {
  readonly mark: SenderMark;
  readonly limitCount: number;
  readonly isSigned: boolean;
}

/** Bursts of a satellite link for every 48 h of a digest: what members differ in fits into them. */
const SATELLITE_PARTS_COUNT = 2;
const PARTS_FOR_H = 48;
const MOST_PART_COUNT = 99;

/** Parts a digest of so many hours may take where nobody says it: as many as hold what two bursts hold for every 48 h. */
export function partCountFor(aheadH: number, frame: DigestFrame): number {
  const satellite = { ...frame, limitCount: PART_LIMITS.satellite };
  const wantedCount = bodyRoom(satellite, SATELLITE_PARTS_COUNT * Math.ceil(aheadH / PARTS_FOR_H));
  let partCount = 1;
  while (partCount < MOST_PART_COUNT && bodyRoom(frame, partCount) < wantedCount) partCount++;
  return partCount;
}

/** Characters the packed digest may take in so many parts: the line for the eye and its end mark stand before it. */
export const digestRoomCount = (frame: DigestFrame, partCount: number): number =>
  Math.max(0, bodyRoom(frame, partCount) - MOST_SUMMARY_CHARACTERS - 1);

const bodyRoom = ({ mark, ...frame }: DigestFrame, partCount: number): number =>
  bodyRoomCount({ kind: 'digest', ...mark }, { ...frame, partCount });
