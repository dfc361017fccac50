/** Members of an ensemble told in few numbers: how late each is, then how much it has of the ways in which they differ. */
import { wrap180Deg } from '../../units/index.ts';
import { type DigestSpread, NODE_STEPS, nodeCountOf, type SpreadMode, STEP_H } from './digest.ts';
import { laneInstant, type LaneWeather } from './lane-weather.ts';
import { latenessH, modeSize, UNIT_SEA_M, UNIT_TURN_DEG, UNIT_WIND_KN } from './members.ts';
import { onScale, SCALES } from './scales.ts';

/** Members along the nominal voyage, member-major: `member * stepCount + step`. */
export interface MembersAlong {
  readonly memberCount: number;
  readonly windKn: Float32Array;
  readonly windFromDegTrue: Float32Array;
  readonly seaM: Float32Array;
}

interface Fitting {
  readonly digest: { readonly baseEpochMs: number; readonly firstEpochMs: number; readonly stepCount: number };
  readonly weather: LaneWeather;
  readonly members: MembersAlong;
}

/** Bits that one mode takes. */
export const modeBitCount = (stepCount: number, memberCount: number): number =>
  SCALES.modeSize.bitCount +
  3 * nodeCountOf(stepCount) * SCALES.modeValue.bitCount +
  memberCount * SCALES.scoreSd.bitCount;

/** Most modes a digest can hold. */
export const MOST_MODES = 2 ** SCALES.modeCount.bitCount - 1;

/**
 * Timing first: the shift that leaves least of the wind and the sea, a lasting difference of level set aside. Then what
 * is left, as principal components found one by one (power iteration), each rounded as it is sent before the next is
 * looked for, so that later ones make good the rounding of the earlier.
 */
export function fitSpread(fitting: Fitting, modeCount: number): DigestSpread {
  const { members, digest } = fitting;
  const laneIndex = laneOfNominal(fitting.weather);
  const timingH = Array.from({ length: members.memberCount }, (_, memberIndex) =>
    bestTimingH(fitting, { laneIndex, memberIndex }),
  );
  const rest = timingH.map((lastH, memberIndex) => nodesOfRest(fitting, { laneIndex, memberIndex, lastH }));
  const modes: SpreadMode[] = [];
  for (let i = 0; i < modeCount; i++) {
    const mode = nextMode(rest);
    if (mode === null) break;
    takeOut(rest, mode);
    modes.push(mode);
  }
  if (rest.some((row) => row.length !== 3 * nodeCountOf(digest.stepCount))) throw new Error('rows of unequal length');
  return { timingH, modes };
}

export const laneOfNominal = ({ lanesNm }: LaneWeather): number => lanesNm.indexOf(0);

interface OfMember {
  readonly laneIndex: number;
  readonly memberIndex: number;
}

/** Timing is looked for within this, in steps of the scale, and must earn its size: half a unit of misfit at 6 h. Ours. */
const MOST_TIMING_H = 15;
const TIMING_PRIOR_SD_H = 6;

function bestTimingH(fitting: Fitting, of: OfMember): number {
  let best = { lastH: 0, misfit: Infinity };
  const stepIndex = SCALES.timingH.stepN;
  for (let count = -MOST_TIMING_H / stepIndex; count <= MOST_TIMING_H / stepIndex; count++) {
    const lastH = onScale(SCALES.timingH, count * stepIndex);
    const misfit = misfitOf(fitting, of, lastH) + (lastH / TIMING_PRIOR_SD_H) ** 2;
    if (misfit < best.misfit - 1e-9 || (misfit < best.misfit + 1e-9 && Math.abs(lastH) < Math.abs(best.lastH)))
      best = { lastH, misfit };
  }
  return best.lastH;
}

/** Squares of what is left of wind and sea after a shift, without their mean; ignores steps that are not known. */
function misfitOf(fitting: Fitting, of: OfMember, lastH: number): number {
  const rest = restAt(fitting, { ...of, lastH });
  return variation(rest.wind) + variation(rest.sea);
}

function variation(values: readonly number[]): number {
  const known = values.filter((value) => !Number.isNaN(value));
  const mean = known.reduce((sum, value) => sum + value, 0) / Math.max(1, known.length);
  return known.reduce((sum, value) => sum + (value - mean) ** 2, 0);
}

interface Rest {
  readonly wind: readonly number[];
  readonly turn: readonly number[];
  readonly sea: readonly number[];
}

/** What a member still differs in once it is shifted, in units, step by step; direction counts less in light air. */
function restAt({ digest, weather, members }: Fitting, of: OfMember & { readonly lastH: number }): Rest {
  const rest = { wind: [] as number[], turn: [] as number[], sea: [] as number[] };
  for (const [stepIndex, lateH] of latenessH(digest, of.lastH).entries()) {
    const timed = laneInstant(weather, of.laneIndex, stepIndex - lateH / STEP_H);
    const k = of.memberIndex * digest.stepCount + stepIndex;
    rest.wind.push(((members.windKn[k] ?? Number.NaN) - timed.windKn) / UNIT_WIND_KN);
    const turnDeg = wrap180Deg((members.windFromDegTrue[k] ?? Number.NaN) - timed.windFromDegTrue);
    rest.turn.push((turnDeg / UNIT_TURN_DEG) * Math.min(1, timed.windKn / LIGHT_AIR_KN));
    rest.sea.push(((members.seaM[k] ?? Number.NaN) - timed.seaM) / UNIT_SEA_M);
  }
  return rest;
}

const LIGHT_AIR_KN = 6;

function nodesOfRest(fitting: Fitting, of: OfMember & { readonly lastH: number }): Float64Array {
  const rest = restAt(fitting, of);
  const { stepCount } = fitting.digest;
  return Float64Array.from([rest.wind, rest.turn, rest.sea].flatMap((values) => atNodes(values, stepCount)));
}

/** A node takes half of its own step and a quarter of either neighbour; steps that are not known count as no difference. */
function atNodes(values: readonly number[], stepCount: number): number[] {
  const known = (stepIndex: number): number => {
    const value = values[Math.min(Math.max(stepIndex, 0), stepCount - 1)] ?? Number.NaN;
    return Number.isNaN(value) ? 0 : value;
  };
  return Array.from({ length: nodeCountOf(stepCount) }, (_, nodeIndex) => {
    const stepIndex = Math.min(nodeIndex * NODE_STEPS, stepCount - 1);
    return known(stepIndex) / 2 + (known(stepIndex - 1) + known(stepIndex + 1)) / 4;
  });
}

const ITERATIONS = 40;

/** The direction in which rows differ most, rounded as it is sent; null when nothing is left. */
function nextMode(rows: readonly Float64Array[]): SpreadMode | null {
  let direction = rows.reduce((most, row) => (normOf(row) > normOf(most) ? row : most), new Float64Array(0));
  if (normOf(direction) < 1e-9) return null;
  for (let i = 0; i < ITERATIONS; i++) {
    const sum = new Float64Array(direction.length);
    for (const row of rows) {
      const amount = dot(row, direction);
      for (let k = 0; k < sum.length; k++) sum[k] = (sum[k] ?? 0) + amount * (row[k] ?? 0);
    }
    const norm = normOf(sum);
    direction = sum.map((value) => value / norm);
  }
  const amounts = rows.map((row) => dot(row, direction));
  const amountSd = Math.sqrt(amounts.reduce((sum, amount) => sum + amount * amount, 0) / rows.length);
  const most = direction.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  const largestCode = 2 ** (SCALES.modeValue.bitCount - 1) - 1;
  const sizeIndex = sizeIndexFor((most * amountSd) / largestCode);
  const values = Array.from(direction, (value) => onScale(SCALES.modeValue, (value * amountSd) / modeSize(sizeIndex)));
  const sent = Float64Array.from(values, (value) => value * modeSize(sizeIndex));
  const square = dot(sent, sent);
  const scoresSd = rows.map((row) => onScale(SCALES.scoreSd, square === 0 ? 0 : dot(row, sent) / square));
  return { sizeIndex, values, scoresSd };
}

function sizeIndexFor(wantedN: number): number {
  const mostIndex = 2 ** SCALES.modeSize.bitCount - 1;
  for (let index = 0; index < mostIndex; index++) if (modeSize(index) >= wantedN) return index;
  return mostIndex;
}

function takeOut(rows: readonly Float64Array[], mode: SpreadMode): void {
  for (const [memberIndex, row] of rows.entries()) {
    const amount = modeSize(mode.sizeIndex) * (mode.scoresSd[memberIndex] ?? 0);
    for (let k = 0; k < row.length; k++) row[k] = (row[k] ?? 0) - amount * (mode.values[k] ?? 0);
  }
}

const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, k) => sum + value * (b[k] ?? 0), 0);
const normOf = (row: Float64Array): number => Math.sqrt(dot(row, row));
