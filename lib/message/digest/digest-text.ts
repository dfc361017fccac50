/** A digest in plain words: one line per step, nothing left out that a sailor reads. */
import { formatPosition } from '../../geo/index.ts';
import { formatAt, MS_PER_H } from '../../time/index.ts';
import { type Digest, LANES_NM, NODE_STEPS, STEP_H } from './digest.ts';
import { laneOfNominal } from './fit-spread.ts';
import { laneWeather } from './lane-weather.ts';
import { memberDifference, memberInstant } from './members.ts';
import { rainOfIndex, visibilityOfIndex } from './scales.ts';
import { placeBehind, wayOf } from './way.ts';

const TIME = "ccc dd LLL HH:mm'Z'";

export function digestText(digest: Digest): string[] {
  const spread = spreadBySteps(digest);
  return [headLine(digest), ...spreadLines(digest), '', ...stepLines(digest, spread), '', ...beyondLines()];
}

function headLine(digest: Digest): string {
  const lastEpochMs = digest.firstEpochMs + (digest.stepCount - 1) * STEP_H * MS_PER_H;
  return (
    `Weather along the way from ${formatAt(digest.firstEpochMs, 0, TIME)} to ${formatAt(lastEpochMs, 0, TIME)}, every ${STEP_H} h, ` +
    `from the forecast of ${formatAt(digest.baseEpochMs, 0, TIME)}.`
  );
}

function spreadLines({ spread, memberCount }: Digest): string[] {
  if (spread === null) return ['One forecast, without an ensemble: its errors are taken from how far ahead it looks.'];
  const early = spread.timingH.filter((lateH) => lateH <= -1).length;
  const late = spread.timingH.filter((lateH) => lateH >= 1).length;
  const sdH = Math.sqrt(spread.timingH.reduce((sum, value) => sum + value * value, 0) / Math.max(1, memberCount));
  return [
    `${memberCount} members; at the end of it ${early} of them are early by 1 h or more and ${late} late, ` +
      `one standard deviation is ${sdH.toFixed(1)} h. Wind is shown with the tenth and ninetieth of a hundred members.`,
  ];
}

interface Spread {
  readonly lowKn: number;
  readonly highKn: number;
}

/** Tenth and ninetieth percentile of the members' wind on the nominal voyage; null: no ensemble. */
function spreadBySteps(digest: Digest): readonly Spread[] | null {
  const { spread } = digest;
  if (spread === null) return null;
  const weather = laneWeather(digest);
  const laneIndex = laneOfNominal(weather);
  const members = spread.timingH.map((_, memberIndex) => memberDifference(digest, spread, memberIndex));
  return digest.windKn.map((_, stepIndex) => {
    const winds = members
      .map((difference) => memberInstant(weather, difference, { laneIndex, stepIndex }).windKn)
      .toSorted((a, b) => a - b);
    const at = (share: number): number => winds[Math.round(share * (winds.length - 1))] ?? Number.NaN;
    return { lowKn: at(0.1), highKn: at(0.9) };
  });
}

function stepLines(digest: Digest, spread: readonly Spread[] | null): string[] {
  const way = wayOf(digest.places, digest.stepCount);
  return digest.windKn.map((windKn, stepIndex) => {
    const parts = [
      formatAt(digest.firstEpochMs + stepIndex * STEP_H * MS_PER_H, 0, TIME),
      formatPosition(placeBehind(way, stepIndex, 0), 0),
      windText(digest, stepIndex, spread?.[stepIndex] ?? null),
      Number.isNaN(windKn) ? '' : amount('gust', digest.gustKn[stepIndex], 'kn', 0),
      seaText(digest, stepIndex),
      amount('', digest.pressureHpa[stepIndex], 'hPa', 0),
      rainText(digest.rainIndex[stepIndex]),
      visibilityText(digest.visibilityIndex[stepIndex]),
    ];
    return parts.filter((part) => part !== '').join('  ');
  });
}

function windText(digest: Digest, stepIndex: number, spread: Spread | null): string {
  const windKn = digest.windKn[stepIndex] ?? Number.NaN;
  if (Number.isNaN(windKn)) return 'wind not known';
  const fromDegTrue = String(Math.round(digest.windFromDegTrue[stepIndex] ?? 0)).padStart(3, '0');
  const range = spread === null ? '' : ` (${Math.round(spread.lowKn)} to ${Math.round(spread.highKn)})`;
  return `wind from ${fromDegTrue} ${windKn.toFixed(0)} kn${range}`;
}

function seaText(digest: Digest, stepIndex: number): string {
  const height = amount('sea', digest.seaHeightM[stepIndex], 'm', 1);
  const period = amount('', digest.wavePeriodS[stepIndex], 's', 0);
  return [height === '' ? 'sea not known' : height, period].filter((part) => part !== '').join(' ');
}

const amount = (name: string, value: number | undefined, unit: string, digits: number): string =>
  value === undefined || Number.isNaN(value) ? '' : `${name} ${value.toFixed(digits)} ${unit}`.trim();

function rainText(index: number | undefined): string {
  if (index === undefined || Number.isNaN(index)) return 'rain not known';
  return index === 0 ? 'dry' : `rain about ${rainOfIndex(index)} mm/h`;
}

const visibilityText = (index: number | undefined): string =>
  index === undefined || Number.isNaN(index) ? '' : `sight ${visibilityOfIndex(index)} nm or more`;

const beyondLines = (): string[] => [
  `It also tells the wind and sea ${-LANES_NM[0]} nm ahead of this way and ${LANES_NM[1]} and ${LANES_NM[2]} nm behind it, and how each member ` +
    `differs every ${NODE_STEPS * STEP_H} h. Nothing is known farther off.`,
];
