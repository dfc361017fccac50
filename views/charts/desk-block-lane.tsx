import type { JSX } from 'preact';
import type { BlockLane } from '../../server/presenters/strip-model.ts';
import { BlockShapes } from './block-shapes.tsx';
import { LaneName } from './desk-lane-name.tsx';
import { LABEL_PX, LABEL_ROW_PX, RIGHT_PX } from './desk-places.ts';
import { labelRows, textWidthPx, type LabelPlace } from './label-rows.ts';
import type { Plot } from './plot.ts';

const placesOf = (lane: BlockLane, on: Plot): LabelPlace[] =>
  labelRows(
    labelled(lane).map((block) => ({
      block: { fromPx: on.along(block.fromEpochMs), toPx: on.along(block.toEpochMs) },
      widthPx: textWidthPx(block.text, LABEL_PX),
    })),
    { gapPx: 8, toPx: RIGHT_PX },
  );

const labelled = (lane: BlockLane): BlockLane['blocks'] => lane.blocks.filter((block) => block.text !== '');

/** Rows of labels that its blocks have no room for. */
export const rowCount = (lane: BlockLane, on: Plot): number =>
  placesOf(lane, on).reduce((count, place) => (place.inside ? count : Math.max(count, place.rowIndex + 1)), 0);

/** A lane of blocks, each with its name inside it or below. */
export function DeskBlockLane({ lane, topPx, on }: { lane: BlockLane; topPx: number; on: Plot }): JSX.Element {
  const places = placesOf(lane, on);
  return (
    <g>
      <LaneName y={topPx + 16} name={lane.name} unit="" />
      <BlockShapes lane={lane} plot={on} across={[topPx, topPx + 24]} />
      {labelled(lane).map((block, i) => {
        const place = places[i];
        const chosen = block.isChosen ? ' chosen' : '';
        if (place === undefined || place.inside) {
          return (
            <text
              key={block.fromEpochMs}
              class={`block-word in ${block.kind}${chosen}`}
              x={on.along(block.fromEpochMs) + 4}
              y={topPx + 16}
            >
              {block.text}
            </text>
          );
        }
        const y = topPx + 24 + place.rowIndex * LABEL_ROW_PX;
        return (
          <g key={block.fromEpochMs}>
            <line
              class="leader"
              x1={on.along(block.fromEpochMs) + 0.5}
              x2={on.along(block.fromEpochMs) + 0.5}
              y1={topPx + 20}
              y2={y + 4}
            />
            <text class={`block-word${chosen}`} x={place.fromPx} y={y + 12}>
              {block.text}
            </text>
          </g>
        );
      })}
    </g>
  );
}
