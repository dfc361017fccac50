import { digestOfPassage, digestRoomCount, partCountFor } from '../../../lib/message/index.ts';
import { loadPassage } from '../../../server/stores/passage-files.ts';
import { numberOption, type OptionKinds, reportProblems, type TakenApart } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { forecastProgress } from '../forecast-progress.ts';
import { passageGiven } from '../passage-arguments.ts';
import { send, sendingGiven } from './sending.ts';
import { oneFile, wholeOption } from './write-plan.ts';

export const DIGEST_OPTIONS = {
  hours: 'text',
  parts: 'text',
  now: 'text',
  until: 'text',
  seed: 'text',
} as const satisfies OptionKinds;

const MOST_HOURS_H = 240;
const DEFAULT_HOURS_H = 48;
const MOST_PART_COUNT = 99;

/** `slatch message write digest`. */
export async function writeDigest(given: TakenApart, io: CommandIo): Promise<number> {
  const file = oneFile(given, 'a passage file');
  const aheadH = numberOption(given, 'hours', { least: 3, most: MOST_HOURS_H }) ?? DEFAULT_HOURS_H;
  const partCount = wholeOption(given, 'parts', { least: 1, most: MOST_PART_COUNT });
  const sending = await sendingGiven(given, 'digest', io);
  if (!sending.ok) return refuse(io, sending.problems);
  const loaded = await loadPassage(file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refuse(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const input = passageGiven({ ...given, file, json: given.flags.has('json') }, loaded.value, io);
  const { mark, limitCount, keyOctets } = sending.value;
  const frame = { mark, limitCount, isSigned: keyOctets !== null };
  const mostCharacterCount = digestRoomCount(frame, partCount ?? partCountFor(aheadH, frame));
  const digest = digestOfPassage({ ...input, aheadH, mostCharacterCount });
  if (!digest.ok) return refuse(io, digest.problems);
  return send({ kind: 'digest', madeEpochMs: input.nowEpochMs, digest: digest.value }, sending.value, given, io);
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}
