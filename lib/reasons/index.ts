export { broken, PLAIN_RULES, verdictOf, type Finding, type PlainRule, type RuleId } from './finding.ts';
export {
  finishByFinding,
  forbiddenFinding,
  horizonFinding,
  lockFinding,
  longestSleepFinding,
  notBeforeFinding,
  overlapFinding,
  pastFinding,
  effortRestFinding,
  sessionRestFinding,
  settleFinding,
  toolFinding,
  type WorkSpan,
} from './time-rules.ts';
export {
  costFinding,
  handlingFinding,
  handlingStateFinding,
  jointFinding,
  lockHandlingFinding,
  materialFindings,
  precedenceFinding,
  probabilityFinding,
  sailStateFinding,
  twiceFinding,
  type Before,
} from './order-rules.ts';
export { personFindings } from './person-rules.ts';
export { weatherJudge, type WeatherJudge, type WorkedBlock } from './weather-rules.ts';
export { startJudge, type StartJudge, type StartSearch } from './start-judge.ts';
export { weatherAgainst } from './weather-against.ts';
export { whyNotEarlier, type EarlierStarts, type StartStretch } from './why-not-earlier.ts';
export { waysOf } from './ways.ts';
export { nearestMiss, type MissedStart } from './nearest-miss.ts';
export type { Change, ChangeKind, Rows } from './changes.ts';
export { wouldBuy, type Purchase, type PurchaseSearch } from './would-buy.ts';
export { shipTime } from './words.ts';
export { findingText, ruleWords } from './finding-text.ts';
export { nearestMissText, purchaseText, type SlotWording, whyNotEarlierText, wouldBuyTexts } from './reason-texts.ts';
export { minutesText, ofHundred, type Wording } from './words.ts';
