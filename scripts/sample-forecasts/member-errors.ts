import { directionGrowthSdDeg, timingGrowthSdH, windGrowthSdKn } from './error-growth.ts';
import { normalDraw, stratifiedTwenty, uniformDraws } from './random.ts';
import { LEAD_AT_START_H, type MemberError } from './weather-pattern.ts';

export const MEMBER_COUNT = 20;

const SEED = 7;
/** Part of a level error that lasts through the forecast; the rest drifts. */
const LASTING_RATIO = 0.7;
const DRIFTING_RATIO = Math.sqrt(1 - LASTING_RATIO ** 2);
/** Rising wind comes early by this part of the timing error. */
const EARLY_BAD_WEATHER_DEVIATES = 0.3;
/** Sea errors follow wind errors by 0.6. */
const SEA_WITH_WIND_RATIO = 0.6;
const SEA_ALONE_RATIO = 0.8;
const NODE_H = 6;
const LAST_LEAD_H = 192;
/** The timing of the second front is another draw, correlated 0.5 with the first's; one gives way to the other here. */
const SECOND_FRONT_FROM_H = 48;
const SECOND_FRONT_OVER_H = 72;

/** Hours after which a drifting error has forgotten all but 1/e of itself. */
const MEMORY_H = { wind: 24, sea: 36, direction: 24 } as const;

/** A drifting error: unit variance at nodes `NODE_H` apart. */
interface Drift {
  readonly nodes: readonly number[];
  /** Correlation of neighbouring nodes. */
  readonly neighbourRatio: number;
}

interface Member {
  readonly firstTiming: number;
  readonly secondTiming: number;
  readonly wind: number;
  readonly sea: number;
  readonly direction: number;
  readonly windDrift: Drift;
  readonly seaDrift: Drift;
  readonly directionDrift: Drift;
}

const members: readonly Member[] = drawMembers();

/** Error of a member, 1 to 20, at a lead; zero at lead 0. */
export function memberErrorAt(memberNumber: number, leadH: number): MemberError {
  const member = members[memberNumber - 1];
  if (member === undefined) throw new Error(`there is no member ${memberNumber}`);
  const windDrift = driftAt(member.windDrift, leadH);
  const seaDrift = SEA_WITH_WIND_RATIO * windDrift + SEA_ALONE_RATIO * driftAt(member.seaDrift, leadH);
  return {
    leadH,
    timingSdH: timingGrowthSdH(leadH),
    timingDeviates: timingDeviatesAt(member, leadH - LEAD_AT_START_H),
    worseningDeviates: EARLY_BAD_WEATHER_DEVIATES,
    windKn: windGrowthSdKn(leadH) * levelDeviates(member.wind, windDrift),
    seaDeviates: levelDeviates(member.sea, seaDrift),
    directionDeg:
      directionGrowthSdDeg(leadH) * (0.5 * member.direction + Math.sqrt(0.75) * driftAt(member.directionDrift, leadH)),
  };
}

const levelDeviates = (lasting: number, drifting: number): number =>
  LASTING_RATIO * lasting + DRIFTING_RATIO * drifting;

/** Glides from the first front's deviate to the second's at constant variance. */
function timingDeviatesAt(member: Member, hourH: number): number {
  const second = Math.min(1, Math.max(0, (hourH - SECOND_FRONT_FROM_H) / SECOND_FRONT_OVER_H));
  const first = 1 - second;
  return (
    (first * member.firstTiming + second * member.secondTiming) / Math.hypot(first, second, Math.sqrt(first * second))
  );
}

/** Linear between nodes, scaled back to unit variance. */
function driftAt(drift: Drift, leadH: number): number {
  const i = Math.min(Math.floor(leadH / NODE_H), drift.nodes.length - 2);
  const upper = leadH / NODE_H - i;
  const lower = 1 - upper;
  const value = lower * (drift.nodes[i] ?? 0) + upper * (drift.nodes[i + 1] ?? 0);
  return value / Math.sqrt(lower ** 2 + upper ** 2 + 2 * lower * upper * drift.neighbourRatio);
}

function drawMembers(): readonly Member[] {
  const uniform = uniformDraws(SEED);
  const column = (): readonly number[] => stratifiedTwenty(uniform);
  const [first, second, wind, sea, direction] = [column(), column(), column(), column(), column()];
  return Array.from({ length: MEMBER_COUNT }, (_, i) => {
    const pick = (values: readonly number[]): number => values[i] ?? 0;
    return {
      firstTiming: pick(first),
      secondTiming: 0.5 * pick(first) + Math.sqrt(0.75) * pick(second),
      wind: pick(wind),
      sea: SEA_WITH_WIND_RATIO * pick(wind) + SEA_ALONE_RATIO * pick(sea),
      direction: pick(direction),
      windDrift: drawDrift(uniform, MEMORY_H.wind),
      seaDrift: drawDrift(uniform, MEMORY_H.sea),
      directionDrift: drawDrift(uniform, MEMORY_H.direction),
    };
  });
}

function drawDrift(uniform: () => number, memoryH: number): Drift {
  const neighbourRatio = Math.exp(-NODE_H / memoryH);
  const nodes: number[] = [];
  for (let i = 0; i <= LAST_LEAD_H / NODE_H; i++) {
    const fresh = normalDraw(uniform);
    const before = nodes[i - 1];
    nodes.push(before === undefined ? fresh : neighbourRatio * before + Math.sqrt(1 - neighbourRatio ** 2) * fresh);
  }
  return { nodes, neighbourRatio };
}
