import type { JSX } from 'preact';

/** The hatches of one drawing: unknown hours, and what replaces tones on paper. */
export function Hatches({ prefix }: { prefix: string }): JSX.Element {
  return (
    <defs>
      <Hatch id={`${prefix}-unknown`} turnDeg={45} stepPx={6} />
      <Hatch id={`${prefix}-outer`} turnDeg={-45} stepPx={7} />
      <Hatch id={`${prefix}-inner`} turnDeg={-45} stepPx={3.5} />
      <Hatch id={`${prefix}-night`} turnDeg={45} stepPx={3} />
      <Hatch id={`${prefix}-sleep`} turnDeg={90} stepPx={3} />
    </defs>
  );
}

function Hatch({ id, turnDeg, stepPx }: { id: string; turnDeg: number; stepPx: number }): JSX.Element {
  return (
    <pattern
      id={id}
      width={stepPx}
      height={stepPx}
      patternUnits="userSpaceOnUse"
      patternTransform={`rotate(${turnDeg})`}
    >
      <line class="hatch" x1="0" y1="0" x2="0" y2={stepPx} />
    </pattern>
  );
}
