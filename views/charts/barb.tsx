import type { JSX } from 'preact';
import type { Barb } from '../../server/presenters/strip-model.ts';

const SHAFT_PX = 20;
const FEATHER_PX = 8;
const STEP_PX = 3.4;

/**
 * A wind barb: the shaft points to where the wind comes from, feathers at its far end on the side of lower pressure,
 * pennants outermost; a lone half feather stands in from the end; calm is a circle.
 *
 * Drawn for a northerly and turned. Back to a northerly one looks south: left is east, on the page to the right.
 *
 * @see WMO-No. 485, Manual on the Global Data-processing and Forecasting System, plotting of wind
 */
export function WindBarb({ barb, x, y }: { barb: Barb; x: number; y: number }): JSX.Element {
  if (barb.calm) {
    return (
      <circle class="barb" cx={x} cy={y} r={4}>
        <title>{barb.title}</title>
      </circle>
    );
  }
  return (
    <g class="barb" transform={`translate(${x} ${y}) rotate(${barb.fromDegTrue})`}>
      <title>{barb.title}</title>
      <path d={`M0 ${SHAFT_PX / 2}V${-SHAFT_PX / 2}${feathers(barb)}`} />
    </g>
  );
}

/** Path of the feathers on a shaft whose far end is at (0, −SHAFT_PX / 2). */
export function feathers({ pennantCount, fullCount, halfCount, side }: Omit<Barb, 'title' | 'atEpochMs'>): string {
  const outPx = side === 'left' ? FEATHER_PX : -FEATHER_PX;
  const onlyHalf = pennantCount === 0 && fullCount === 0;
  let y = -SHAFT_PX / 2 + (onlyHalf ? STEP_PX : 0);
  const parts: string[] = [];
  for (let i = 0; i < pennantCount; i++, y += STEP_PX * 1.5) {
    parts.push(`M0 ${px(y)}L${outPx} ${px(y)}L0 ${px(y + STEP_PX)}`);
  }
  for (let i = 0; i < fullCount; i++, y += STEP_PX) parts.push(`M0 ${px(y)}L${outPx} ${px(y - 3)}`);
  if (halfCount > 0) parts.push(`M0 ${px(y)}L${outPx / 2} ${px(y - 1.5)}`);
  return parts.join('');
}

const px = (value: number): string => String(Math.round(value * 10) / 10);
