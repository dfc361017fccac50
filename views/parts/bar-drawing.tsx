import type { JSX } from 'preact';
import type { BarDrawing, BarPart } from '../../server/presenters/bar-drawing.ts';

const WIDTH_PX = 720;
const HEIGHT_PX = 30;

/** A bar to scale with its cuts; its pieces by number, named in the lines beside it. */
export function BarPicture({ bar }: { bar: BarDrawing }): JSX.Element {
  const widthPx = bar.lengthShare * WIDTH_PX;
  return (
    <figure class="bar">
      <figcaption>
        <b>{bar.barId}</b> <small>{bar.size}</small>
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH_PX} ${HEIGHT_PX}`} role="img" aria-label={bar.description}>
        {bar.parts.map((part, index) => (
          <Part key={part.fromShare} part={part} number={index + 1} widthPx={widthPx} />
        ))}
      </svg>
      <ul class="plain">
        {bar.parts.map((part, index) => (
          <li key={part.fromShare}>
            {index + 1}. {part.name}: {part.lengthText}
          </li>
        ))}
      </ul>
    </figure>
  );
}

function Part({ part, number, widthPx }: { part: BarPart; number: number; widthPx: number }): JSX.Element {
  const x = part.fromShare * widthPx;
  const width = Math.max(1, (part.toShare - part.fromShare) * widthPx);
  return (
    <g class={part.isLeftOver ? 'bar-left' : 'bar-piece'}>
      <rect x={x} y={1} width={width} height={HEIGHT_PX - 2} />
      {width > 16 && (
        <text x={x + width / 2} y={HEIGHT_PX / 2 + 5} text-anchor="middle">
          {number}
        </text>
      )}
    </g>
  );
}
