/** Where the numbers of panels and gores stand. */
import type { DamageReport } from '../../lib/sail/index.ts';
import type { SailFrame } from './sail-frame.ts';
import {
  boxesMeet,
  GAP_PX,
  HALF_TEXT_PX,
  isOnAnother,
  labelBox,
  type SailLabel,
  tearBox,
  TEXT_PX,
} from './sail-label.ts';

/** Numbers of the panels: behind the leech, of gores on the cloth; torn ones first, then as many as find room. */
export function panelLabels(report: DamageReport, frame: SailFrame, taken: readonly SailLabel[]): readonly SailLabel[] {
  const { panels, sail } = report.shape;
  const torn = new Set(
    report.tears.flatMap(({ findings }) =>
      findings.flatMap((finding) =>
        finding.code === 'tear.place' ? finding.panels.map(({ count }) => count.itsNumber) : [],
      ),
    ),
  );
  const first = panels.filter(({ panelNumber }) => torn.has(panelNumber));
  const ends = [panels[0], panels.at(-1)].flatMap((panel) => (panel === undefined ? [] : [panel]));
  const tears = report.tears.map(({ tear }) => tearBox(frame, tear.line));
  const placed: SailLabel[] = [];
  const isFree = (label: SailLabel): boolean =>
    !isOnAnother(label, [...placed, ...taken]) && !tears.some((tear) => boxesMeet(labelBox(label), tear));
  for (const panel of new Set([...first, ...ends, ...panels])) {
    const kind = torn.has(panel.panelNumber) ? 'panel torn' : 'panel';
    const otherNumber = panels.length + 1 - panel.panelNumber;
    const found = (sail.cut === 'radial' ? goreLabels : leechLabels)(frame, panel, { otherNumber, kind }).find(isFree);
    if (found !== undefined) placed.push(found);
  }
  return placed;
}

type Panel = DamageReport['shape']['panels'][number];
type Words = Pick<SailLabel, 'kind'> & { readonly otherNumber: number };

/** Behind the leech, at the middle of the panel. */
function leechLabels(
  frame: SailFrame,
  { panelNumber, middle }: Panel,
  { otherNumber, kind }: Words,
): readonly SailLabel[] {
  const { y } = frame.place(middle.to);
  const x = frame.edgesAt(y).leechPx + GAP_PX;
  const text = `${panelNumber}↑ ${otherNumber}↓`;
  return [{ text, x, y: y + HALF_TEXT_PX, anchor: 'start', sizePx: TEXT_PX, kind }];
}

/** Shares of the way out from the corner where a gore is wide enough for its number, the best first. */
const GORE_LABEL_SHARES = [0.66, 0.8, 0.52, 0.9] as const;

function goreLabels(
  frame: SailFrame,
  { panelNumber, middle }: Panel,
  { otherNumber, kind }: Words,
): readonly SailLabel[] {
  const [from, to] = [frame.place(middle.from), frame.place(middle.to)];
  return GORE_LABEL_SHARES.map((share) => ({
    text: `${panelNumber} (${otherNumber})`,
    x: from.x + (to.x - from.x) * share,
    y: from.y + (to.y - from.y) * share + HALF_TEXT_PX,
    anchor: 'middle',
    sizePx: TEXT_PX,
    kind,
  }));
}
