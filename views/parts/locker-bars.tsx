import type { JSX } from 'preact';
import type { BarDrawing, BarPart } from '../../server/presenters/locker-bars.ts';

const HEIGHT_PX = 46;
const BAR_TOP_PX = 18;
const BAR_PX = 26;
/** Narrower than this a label would stand over its neighbour, on a phone. */
const LEAST_LABEL_SHARE = 0.07;
const LABEL_SHARE_PER_LETTER = 0.021;
const LEAST_MARK_SHARE = 0.14;

/** A bar to scale; places are shares of the width, so that words keep their size on every screen. */
export function BarPicture({ drawing }: { drawing: BarDrawing }): JSX.Element {
  return (
    <svg class="bar-picture" width="100%" height={HEIGHT_PX} role="img" aria-label={drawing.description}>
      {drawing.parts.map((part) => (
        <Part key={`${part.kind} ${part.fromShare}`} part={part} />
      ))}
      <rect class="bar-outline" x="0.1%" y={BAR_TOP_PX} width={percent(drawing.lengthShare - 0.002)} height={BAR_PX} />
      {drawing.marks.map(({ atShare }) => (
        <line
          key={atShare}
          class="bar-cut"
          x1={percent(atShare)}
          x2={percent(atShare)}
          y1={BAR_TOP_PX - 4}
          y2={BAR_TOP_PX + BAR_PX}
        />
      ))}
      {shownMarks(drawing).map(({ atShare, text }) => (
        <text
          key={atShare}
          class="bar-mark"
          x={percent(atShare)}
          y={BAR_TOP_PX - 6}
          text-anchor={atShare > 0.9 ? 'end' : 'middle'}
        >
          {text}
        </text>
      ))}
    </svg>
  );
}

const percent = (share: number): string => `${(share * 100).toFixed(3)}%`;

/** Marks that stand clear of the one before; all of them are in the lines below. */
function shownMarks({ marks }: BarDrawing): BarDrawing['marks'] {
  let lastShare = -1;
  return marks.filter(({ atShare }) => {
    if (atShare - lastShare < LEAST_MARK_SHARE || atShare < LEAST_LABEL_SHARE) return false;
    lastShare = atShare;
    return true;
  });
}

const ZONE_HATCH = 'locker-no-join';

/** Where no joint may lie is hatched, on paper too. */
const look = (kind: BarPart['kind']): { class: string; fill?: string } => ({
  class: `bar-${kind}`,
  ...(kind === 'zone' ? { fill: `url(#${ZONE_HATCH})` } : {}),
});

function Part({ part: { kind, fromShare, toShare, label } }: { part: BarPart }): JSX.Element {
  const share = toShare - fromShare;
  const isRoomy = share >= Math.max(LEAST_LABEL_SHARE, label.length * LABEL_SHARE_PER_LETTER);
  return (
    <>
      <rect {...look(kind)} x={percent(fromShare)} y={BAR_TOP_PX} width={percent(share)} height={BAR_PX} />
      {label !== '' && isRoomy && (
        <text class="bar-label" x={percent(fromShare + share / 2)} y={BAR_TOP_PX + 18} text-anchor="middle">
          {label}
        </text>
      )}
    </>
  );
}

/** What the tones of the drawings mean; it holds the hatch they share. */
export const BarKey = ({ hasJoins }: { hasJoins: boolean }): JSX.Element => (
  <ul class="bar-key" aria-label="What is drawn">
    <li>
      <svg width="28" height="14" aria-hidden="true">
        <defs>
          <pattern id={ZONE_HATCH} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line class="hatch" x1="0" y1="0" x2="0" y2="6" />
          </pattern>
        </defs>
        <line class="bar-cut" x1="14" x2="14" y1="0" y2="14" />
      </svg>
      mark, in mm from the first end, which is at the left
    </li>
    <KeyEntry kind="piece" text="piece, by its number below" />
    <KeyEntry kind="left-over" text="left over, back to the locker" />
    <KeyEntry kind="scrap" text="scrap" />
    {hasJoins && <KeyEntry kind="joint" text="joint" />}
    {hasJoins && <KeyEntry kind="zone" text="no join here" />}
  </ul>
);

const KeyEntry = ({ kind, text }: { kind: BarPart['kind']; text: string }): JSX.Element => (
  <li>
    <svg width="28" height="14" aria-hidden="true">
      <rect {...look(kind)} x="1" y="1" width="26" height="12" />
    </svg>
    {text}
  </li>
);
