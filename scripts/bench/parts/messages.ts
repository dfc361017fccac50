/** Octets of plans, digests and reports as they are sent, beside the same message in JSON, packed by gzip. */
import { gzipSync } from 'node:zlib';
import { smallestCut } from '../../../lib/forecast/index.ts';
import type { LogEntryFile, NumberedEntry } from '../../../lib/log/index.ts';
import {
  type Digest,
  digestOfPassage,
  digestRoomCount,
  type Message,
  partCountFor,
  PART_LIMITS,
  planMessageOf,
  reportOf,
  writeMessage,
} from '../../../lib/message/index.ts';
import { formatUtc, MS_PER_H } from '../../../lib/time/index.ts';
import type { PlanInput } from '../../../lib/planner/index.ts';
import { type BenchCase, exactCase, type Part } from '../bench-case.ts';
import { demoInput, forecastFiles, must, planOf } from '../demo.ts';

const MARK = { sender: 'SH', counterNumber: 1 };
const LIMITS = Object.entries(PART_LIMITS);
const AHEAD_H = [24, 48, 96];
const QUICK_AHEAD_H = [48];
const PLANS = [
  { jobCount: 3, horizonH: 48 },
  { jobCount: 12, horizonH: 66 },
] as const;
const REPORT_COUNTS = [4, 16];
const MEMBER_COUNT = 10;

const planName = (jobCount: number, detail: string, limit: string): string =>
  `plan of ${jobCount} jobs, ${detail}, ${limit}`;
const digestName = (aheadH: number, limit: string): string => `digest of ${aheadH} h, ${limit}`;
const cutName = (aheadH: number): string => `digest of ${aheadH} h, beside the shortest GRIB file`;
const reportName = (count: number, limit: string): string => `report of ${count} entries, ${limit}`;

/** Octets of all parts as they are sent: frames, checks, no seal. */
const sentOctets = (message: Message, limitCount: number): number =>
  must(writeMessage(message, MARK, { limitCount, keyOctets: null })).reduce((sum, part) => sum + part.length, 0);

/** Level 9: what anyone would do who has no message of their own. */
const jsonOctets = (message: Message): number => gzipSync(JSON.stringify(message, plainly), { level: 9 }).length;

/** Typed arrays as lists, as they would be written by hand. */
const plainly = (_: string, value: unknown): unknown =>
  ArrayBuffer.isView(value) && isListed(value) ? Array.from(value) : value;

const isListed = (value: object): value is ArrayLike<unknown> => 'length' in value;

function besideJson(name: string, message: Message, limitCount: number): BenchCase {
  return exactCase(name, 'octets', { ours: sentOctets(message, limitCount), reference: jsonOctets(message) });
}

const inputOf = ({ jobCount, horizonH }: (typeof PLANS)[number]): PlanInput =>
  demoInput({ jobCount, memberCount: MEMBER_COUNT, horizonH });

function planCases(jobCount: number, input: PlanInput): readonly BenchCase[] {
  const { plan } = planOf(input);
  return (['short', 'full'] as const).flatMap((detail) => {
    const message = must(planMessageOf(plan, { detail }));
    return LIMITS.map(([limit, count]) => besideJson(planName(jobCount, detail, limit), message, count));
  });
}

function digestOf(input: PlanInput, aheadH: number, limitCount: number): Digest {
  const frame = { mark: MARK, limitCount, isSigned: false };
  const mostCharacterCount = digestRoomCount(frame, partCountFor(aheadH, frame));
  return must(digestOfPassage({ ...input, aheadH, mostCharacterCount }));
}

function digestCases(input: PlanInput, aheadHs: readonly number[]): readonly BenchCase[] {
  return aheadHs.flatMap((aheadH) =>
    LIMITS.map(([limit, limitCount]) => {
      const digest = digestOf(input, aheadH, limitCount);
      return besideJson(digestName(aheadH, limit), asMessage(digest, input), limitCount);
    }),
  );
}

const asMessage = (digest: Digest, { nowEpochMs }: PlanInput): Message => ({
  kind: 'digest',
  madeEpochMs: nowEpochMs,
  digest,
});

/** Places of a digest are twelve hours apart, its steps three. */
const PLACE_EVERY_H = 12;
const STEP_H = 3;

/** All runs of the same corridor, coarse, as the shortest file of edition 2 that holds it. */
function cutCases(input: PlanInput): readonly BenchCase[] {
  const files = [...forecastFiles(MEMBER_COUNT)];
  return AHEAD_H.map((aheadH) => {
    const digest = digestOf(input, aheadH, PART_LIMITS.satellite);
    const lastEpochMs = digest.firstEpochMs + (digest.stepCount - 1) * STEP_H * MS_PER_H;
    const places = digest.places.map((place, i) => ({
      ...place,
      epochMs: Math.min(digest.firstEpochMs + i * PLACE_EVERY_H * MS_PER_H, lastEpochMs),
    }));
    const asked = { places, fromEpochMs: digest.firstEpochMs, toEpochMs: lastEpochMs, members: 'all' } as const;
    const ours = sentOctets(asMessage(digest, input), PART_LIMITS.satellite);
    return exactCase(cutName(aheadH), 'octets', { ours, reference: must(smallestCut(files, asked)).bytes.length });
  });
}

/** A day of entries as a sailor writes them, by turns: weather, work, sleep. */
function entriesOf(count: number, nowEpochMs: number): readonly NumberedEntry[] {
  const atUtc = (hoursAgoH: number): string => formatUtc(nowEpochMs - hoursAgoH * MS_PER_H);
  return Array.from({ length: count }, (_, i): NumberedEntry => {
    const agoH = count - i;
    const kinds: readonly LogEntryFile[] = [
      {
        kind: 'observation',
        atUtc: atUtc(agoH),
        lat: -35.9 + i / 50,
        lon: 170 + i / 12,
        pressureHpa: 1014 - i / 4,
        wind: { kind: 'true', speedKn: 10 + (i % 9), fromDegTrue: 190 + 5 * i },
        seaHeightM: 1.5 + (i % 5) / 10,
      },
      { kind: 'job', atUtc: atUtc(agoH), jobId: 'drop', event: 'started' },
      { kind: 'sleep', atUtc: atUtc(agoH), endUtc: atUtc(agoH - 0.5) },
      { kind: 'job', atUtc: atUtc(agoH), jobId: 'drop', event: 'done', workedMin: 40 + i },
    ];
    return { number: i + 1, entry: kinds[i % kinds.length] ?? { kind: 'note', atUtc: atUtc(agoH), note: 'calm' } };
  });
}

function reportCases({ nowEpochMs }: PlanInput): readonly BenchCase[] {
  return REPORT_COUNTS.flatMap((count) => {
    const message = must(reportOf([...entriesOf(count, nowEpochMs)], nowEpochMs, {}));
    return LIMITS.map(([limit, limitCount]) => besideJson(reportName(count, limit), message, limitCount));
  });
}

const limitNames = LIMITS.map(([limit]) => limit);

export const messagesPart: Part = {
  caseNames: () => [
    ...PLANS.flatMap(({ jobCount }) =>
      ['short', 'full'].flatMap((detail) => limitNames.map((limit) => planName(jobCount, detail, limit))),
    ),
    ...AHEAD_H.flatMap((aheadH) => limitNames.map((limit) => digestName(aheadH, limit))),
    ...AHEAD_H.map(cutName),
    ...REPORT_COUNTS.flatMap((count) => limitNames.map((limit) => reportName(count, limit))),
  ],
  measure: async ({ isQuick }) => {
    const [small, large] = PLANS;
    const input = inputOf(small);
    const cases = [
      ...planCases(small.jobCount, input),
      ...(isQuick ? [] : planCases(large.jobCount, inputOf(large))),
      ...digestCases(input, isQuick ? QUICK_AHEAD_H : AHEAD_H),
      ...(isQuick ? [] : cutCases(input)),
      ...reportCases(input),
    ];
    return {
      cases,
      skipped: [],
      notes: ['messages: the reference is the same message as JSON, packed by gzip at its best level'],
      figures: { limits: PART_LIMITS, memberCount: MEMBER_COUNT },
    };
  },
};
