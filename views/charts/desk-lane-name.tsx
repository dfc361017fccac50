import type { JSX } from 'preact';

/** Name of a lane at its left, its unit and more lines below. */
export function LaneName(props: { y: number; name: string; unit: string; under?: readonly string[] }): JSX.Element {
  const { y, name, unit, under = [] } = props;
  return (
    <g>
      <text class="lane-name" x={0} y={y}>
        {name}
      </text>
      {[unit, ...under].map((line, i) => (
        <text key={line} class="unit" x={0} y={y + 13 * (i + 1)}>
          {line}
        </text>
      ))}
    </g>
  );
}
