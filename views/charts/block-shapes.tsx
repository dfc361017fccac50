import type { JSX } from 'preact';
import type { Block, BlockLane } from '../../server/presenters/strip-model.ts';
import type { Plot } from './plot.ts';
import { Box } from './shapes.tsx';

const LEAST_BLOCK_PX = 3;

/** Windows and blocks of one lane, without words. `across`: the lane's whole width; blocks stand inside it. */
export function BlockShapes(props: { lane: BlockLane; plot: Plot; across: readonly [number, number] }): JSX.Element {
  const { lane, plot, across } = props;
  const inner = [across[0] + 4, across[1] - 4] as const;
  return (
    <g>
      {lane.windows.map((span) => (
        <Box
          key={span.fromEpochMs}
          plot={plot}
          span={span}
          across={across}
          class={span.conditional ? 'window conditional' : 'window'}
          leastPx={LEAST_BLOCK_PX}
        />
      ))}
      {lane.blocks.map((block) => (
        <Box
          key={block.fromEpochMs}
          plot={plot}
          span={block}
          across={block.kind === 'wait' ? [inner[1] - 2, inner[1]] : inner}
          class={classOf(block)}
          leastPx={LEAST_BLOCK_PX}
        >
          <title>{block.title}</title>
        </Box>
      ))}
    </g>
  );
}

const classOf = (block: Block): string => `block ${block.kind}${block.isChosen ? ' chosen' : ''}`;
