import type { JSX } from 'preact';
import type { SailLabel } from './sail-label.ts';
import type { SailLayout, SailShapePath } from './sail-layout.ts';

interface SailDrawingProps {
  readonly layout: SailLayout;
  /** Begins its ids; one for each drawing of a page. */
  readonly idPrefix: string;
  readonly title: string;
  /** Everything the drawing shows, in sentences. */
  readonly description: string;
  /** Style rules of a drawing that stands alone; on a page left out: the page has them. */
  readonly css?: string;
}

/** A sail with its panels, battens and reefs counted from both ends, and its tears to scale. */
export function SailDrawing({ layout, idPrefix, title, description, css }: SailDrawingProps): JSX.Element {
  const { widthPx, heightPx, paths, leaders, tearLeaders, labels } = layout;
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      class="sail-drawing"
      viewBox={`0 0 ${widthPx} ${Math.ceil(heightPx)}`}
      role="img"
      aria-labelledby={`${idPrefix}-title ${idPrefix}-desc`}
    >
      <title id={`${idPrefix}-title`}>{title}</title>
      <desc id={`${idPrefix}-desc`}>{description}</desc>
      {css !== undefined && <style>{css}</style>}
      <defs>
        <pattern
          id={`${idPrefix}-hatch`}
          width="5"
          height="5"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line class="tear-hatch" x1="0" y1="0" x2="0" y2="5" />
        </pattern>
      </defs>
      {css !== undefined && <rect class="ground" width="100%" height="100%" />}
      {paths.map((path) => (
        <ShapePath key={`${path.kind}${path.d}`} path={path} hatchId={`${idPrefix}-hatch`} />
      ))}
      {leaders.map((d) => (
        <path key={d} class="to-name" d={d} />
      ))}
      {tearLeaders.map((d) => (
        <path key={d} class="to-tear" d={d} />
      ))}
      {labels.map((label) => (
        <Label key={`${label.x} ${label.y}`} label={label} />
      ))}
    </svg>
  );
}

function ShapePath({ path, hatchId }: { path: SailShapePath; hatchId: string }): JSX.Element {
  const { kind, state, d } = path;
  const isHatched = kind === 'may-lie';
  return (
    <path class={state === '' ? kind : `${kind} ${state}`} d={d} {...(isHatched ? { fill: `url(#${hatchId})` } : {})} />
  );
}

const Label = ({ label }: { label: SailLabel }): JSX.Element => (
  <text class={`word ${label.kind}`} x={label.x} y={label.y} text-anchor={label.anchor} font-size={label.sizePx}>
    {label.text}
  </text>
);
