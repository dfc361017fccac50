import type { JSX } from 'preact';
import type { MapDrawing, MapLabel } from '../../server/presenters/map/map-model.ts';

interface SeaMapProps {
  readonly drawing: MapDrawing;
  /** `desk` or `phone`: where it is shown; begins its ids. */
  readonly where: 'desk' | 'phone';
  readonly title: string;
  readonly description: string;
}

/** The sea and the land around a plan, on the Mercator projection. The table beside it says the same in words. */
export function SeaMapDrawing({ drawing, where, title, description }: SeaMapProps): JSX.Element {
  const { widthPx, heightPx, inside, now } = drawing;
  const ids = { title: `map-${where}-title`, desc: `map-${where}-desc`, clip: `map-${where}-clip` };
  const box = { x: inside.left, y: inside.top, width: inside.right - inside.left, height: inside.bottom - inside.top };
  return (
    <svg
      class={`sea-map ${where}`}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-labelledby={`${ids.title} ${ids.desc}`}
    >
      <title id={ids.title}>{title}</title>
      <desc id={ids.desc}>{description}</desc>
      <defs>
        <clipPath id={ids.clip}>
          <rect {...box} />
        </clipPath>
        <pattern
          id={`map-${where}-hatch`}
          width="5"
          height="5"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line class="map-hatch" x1="0" y1="0" x2="0" y2="5" />
        </pattern>
      </defs>
      <rect class="map-sea" {...box} />
      <Line class="map-land" d={drawing.land} />
      <Line class="map-grid" d={drawing.graticule} />
      <Line class="map-date-line" d={drawing.dateLine} />
      <g clip-path={`url(#${ids.clip})`}>
        <Line class="map-track" d={drawing.track} />
        <Line class="map-way" d={drawing.way} />
        {drawing.sleeps.map((d) => (
          <Line key={d} class="map-sleep" d={d} />
        ))}
        {drawing.runs.map((d) => (
          <Line key={d} class="map-run" d={d} />
        ))}
      </g>
      <rect class="map-edge" {...box} />
      {drawing.leaders.map((d) => (
        <Line key={d} class="map-leader" d={d} />
      ))}
      {drawing.jobs.map(({ x, y, isChosen }) => (
        <circle key={`${x} ${y}`} class={isChosen ? 'map-job chosen' : 'map-job'} cx={tenth(x)} cy={tenth(y)} r="5" />
      ))}
      <NowMark x={tenth(now.x)} y={tenth(now.y)} />
      <Line class="map-scale" d={drawing.scaleBar} />
      {drawing.labels.map((label) => (
        <Label key={`${label.kind} ${label.x} ${label.y}`} label={label} />
      ))}
    </svg>
  );
}

const tenth = (px: number): number => Math.round(px * 10) / 10;

const Line = (props: { class: string; d: string }): JSX.Element | null => (props.d === '' ? null : <path {...props} />);

/** A cross, so that it differs from the marks of jobs in shape too. */
const NowMark = ({ x, y }: { x: number; y: number }): JSX.Element => (
  <path class="map-now" d={`M${x - 6} ${y}h12M${x} ${y - 6}v12`} />
);

const Label = ({ label }: { label: MapLabel }): JSX.Element => (
  <text class={`map-word ${label.kind}`} x={tenth(label.x)} y={tenth(label.y)} text-anchor={label.anchor}>
    {label.text}
  </text>
);
