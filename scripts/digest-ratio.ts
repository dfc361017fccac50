/**
 * How much shorter a digest is than the shortest GRIB file of edition 2 of the same corridor, for the demo passage.
 *
 *     npm run digest-ratio
 *
 * The file holds wind, gust, sea height and period, pressure and rain every three hours within 60 nm of where the boat may
 * be, coarse: of the control run alone, which holds no spread, and of all runs, as the digest does.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildForecast, smallestCut } from '../lib/forecast/index.ts';
import {
  type Digest,
  digestOfPassage,
  digestRoomCount,
  partCountFor,
  PART_LIMITS,
  writeMessage,
} from '../lib/message/index.ts';
import { parsePassage } from '../lib/passage/index.ts';
import type { Result } from '../lib/result/index.ts';
import { MS_PER_H } from '../lib/time/index.ts';

const MARK = { sender: 'SH', counterNumber: 1 };
/** Places of a digest are twelve hours apart, the last at its last step. */
const PLACE_EVERY_H = 12;
const STEP_H = 3;

function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

const sample = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(fileURLToPath(new URL(`../sample-forecasts/${name}`, import.meta.url))));

const files = ['demo-control.grib2', 'demo-members.grib2'].map((name) => ({ name, bytes: sample(name) }));
const passage = must(parsePassage(new TextDecoder().decode(sample('demo-passage.json')), 'demo-passage.json'));
const forecast = must(buildForecast(files));
const nowEpochMs = passage.fixedNowEpochMs ?? passage.start.epochMs;

function cutOctets(digest: Digest, members: 'control' | 'all'): number {
  const lastEpochMs = digest.firstEpochMs + (digest.stepCount - 1) * STEP_H * MS_PER_H;
  const places = digest.places.map((place, i) => ({
    ...place,
    epochMs: Math.min(digest.firstEpochMs + i * PLACE_EVERY_H * MS_PER_H, lastEpochMs),
  }));
  const cut = smallestCut(files, { places, fromEpochMs: digest.firstEpochMs, toEpochMs: lastEpochMs, members });
  return must(cut).bytes.length;
}

for (const aheadH of [48, 96]) {
  const frame = { mark: MARK, limitCount: PART_LIMITS.satellite, isSigned: true };
  const mostCharacterCount = digestRoomCount(frame, partCountFor(aheadH, frame));
  const digest = must(digestOfPassage({ passage, forecast, nowEpochMs, aheadH, mostCharacterCount }));
  const settings = { limitCount: frame.limitCount, keyOctets: new Uint8Array(16) };
  const parts = must(writeMessage({ kind: 'digest', madeEpochMs: nowEpochMs, digest }, MARK, settings));
  const octets = parts.reduce((sum, part) => sum + part.length, 0);
  const against = (['control', 'all'] as const).map((members) => {
    const fileOctets = cutOctets(digest, members);
    const name = members === 'control' ? 'control run' : 'all runs';
    return `${name} ${fileOctets} octets, ${Math.round(fileOctets / octets)} to 1`;
  });
  console.log(
    `${aheadH} h: digest ${octets} octets in ${parts.length} signed parts (${parts.map((part) => part.length).join(', ')})`,
  );
  console.log(`  shortest GRIB file: ${against.join('; ')}`);
}
