export { smsLength, septetsOf, type SmsLength } from './frames/septets.ts';
export type { DamagedPart, MessageId, MessageKind } from './frames/part.ts';
export { formatPart, messageName } from './frames/part.ts';
export { findParts, type FoundParts } from './frames/find-parts.ts';
export {
  joinFrames,
  type Joined,
  type ReadSettings,
  type UnreadMessage,
  type WholeMessage,
} from './frames/join-frames.ts';
export { LEAST_LIMIT_COUNT, PART_LIMITS, writeFrames, type FrameSettings } from './frames/write-frames.ts';
export { keyShort } from './frames/write-frames.ts';
export { LEAST_KEY_OCTETS_COUNT, type Envelope } from './frames/seal.ts';
export { counterName, replayCheck, type ReplayCheck, type SeenCounters, type SeenMessage } from './frames/replay.ts';
export { formatCounters, NO_COUNTERS, parseCounters, type Counters } from './frames/counters.ts';
export type { PlanMessage, PlanMessageJob } from './plan/plan-message.ts';
export { planMessageOf, type PlanMessageSettings } from './plan/plan-message-of.ts';
export type { ReportMessage } from './report/report-message.ts';
export { reportOf, type ReportSettings } from './report/report-of.ts';
export { entriesOfReport } from './report/entries-of-report.ts';
export {
  readMessages,
  writeMessage,
  type DigestMessage,
  type Message,
  type ReadMessage,
  type ReadMessages,
  type SenderMark,
} from './message.ts';
export type { MessageNames } from './words/amounts.ts';
export { messageText } from './words/message-words.ts';
export { messageKeyText } from './words/key-text.ts';
export { backupLine } from './words/backup-line.ts';
export {
  digestOfPassage,
  forecastOfDigest,
  packDigest,
  unpackDigest,
  type Digest,
  type PassageDigestInput,
} from './digest/index.ts';
export { digestRoomCount, partCountFor, type DigestFrame } from './digest-room.ts';
