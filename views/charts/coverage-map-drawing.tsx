import type { JSX } from 'preact';
import type { CoverageDrawing } from '../../server/presenters/coverage/coverage-map.ts';

interface DrawingProps {
  readonly drawing: CoverageDrawing;
  /** `desk` or `phone`: where it is shown; begins its ids. */
  readonly where: 'desk' | 'phone';
  readonly title: string;
  readonly description: string;
}

/** Areas of a forecast over the sea with the way, on the Mercator projection. The lists beside it say the same. */
export function CoverageMapDrawing({ drawing, where, title, description }: DrawingProps): JSX.Element {
  const { widthPx, heightPx, inside, now } = drawing;
  const id = (name: string): string => `reach-${where}-${name}`;
  const box = { x: inside.left, y: inside.top, width: inside.right - inside.left, height: inside.bottom - inside.top };
  return (
    <svg
      class={`sea-map ${where}`}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-labelledby={`${id('title')} ${id('desc')}`}
    >
      <title id={id('title')}>{title}</title>
      <desc id={id('desc')}>{description}</desc>
      <defs>
        <clipPath id={id('clip')}>
          <rect {...box} />
        </clipPath>
      </defs>
      <rect class="map-sea" {...box} />
      <Line class="map-land" d={drawing.land} />
      <Line class="map-grid" d={drawing.graticule} />
      <Line class="map-date-line" d={drawing.dateLine} />
      <g clip-path={`url(#${id('clip')})`}>
        {drawing.areas.map((d) => (
          <Line key={d} class="reach-area" d={d} />
        ))}
        <Line class="map-track" d={drawing.track} />
        {drawing.way.map((d) => (
          <Line key={d} class="map-way" d={d} />
        ))}
        {drawing.silentWay.map((d) => (
          <Line key={d} class="reach-silent-way" d={d} />
        ))}
      </g>
      <rect class="map-edge" {...box} />
      {drawing.leaders.map((d) => (
        <Line key={d} class="map-leader" d={d} />
      ))}
      {drawing.midnights.map(({ x, y }) => (
        <circle key={`${x} ${y}`} class="reach-midnight" cx={tenth(x)} cy={tenth(y)} r="2.6" />
      ))}
      {drawing.ends.map(({ x, y }) => (
        <rect key={`${x} ${y}`} class="reach-end" x={tenth(x - 4)} y={tenth(y - 4)} width="8" height="8" />
      ))}
      <path class="map-now" d={`M${tenth(now.x - 6)} ${tenth(now.y)}h12M${tenth(now.x)} ${tenth(now.y - 6)}v12`} />
      <Line class="map-scale" d={drawing.scaleBar} />
      {drawing.labels.map(({ kind, x, y, anchor, text }) => (
        <text key={`${kind} ${x} ${y}`} class={`map-word ${kind}`} x={tenth(x)} y={tenth(y)} text-anchor={anchor}>
          {text}
        </text>
      ))}
    </svg>
  );
}

const tenth = (px: number): number => Math.round(px * 10) / 10;

const Line = (props: { class: string; d: string }): JSX.Element | null => (props.d === '' ? null : <path {...props} />);
