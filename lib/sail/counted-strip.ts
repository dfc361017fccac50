/** A panel or seam found by counting. */
import { failed, ok, type Result } from '../result/index.ts';
import { placeOf } from '../shape/index.ts';
import { counted } from './counting.ts';
import { panelAtTack } from './cross-cut.ts';
import { goreCounts, goresBefore } from './gores.ts';
import type { Panel } from './panel.ts';
import { dot, minus } from './point.ts';
import type { Corner, DamageFile } from './sail-file.ts';
import type { SailShape } from './sail-shape.ts';
import type { DamageAt, Strip } from './strip.ts';

/** How far from a seam a damage on it may lie. Our default. */
const ON_SEAM_M = 0.05;

type CountedFile = NonNullable<DamageFile['counted']>;

/** The corner where a count begins: as said, else by convention. */
const cornerOfCount = (shape: SailShape, said: CountedFile): Corner =>
  said.from ?? (shape.sail.cut === 'radial' ? 'tack' : 'clew');

/** The panel that is the nth from a corner; null: the sail has no such panel. */
export function panelCountedFrom(shape: SailShape, corner: Corner, nth: { panelNumber: number }): Panel | null {
  const most = mostFrom(shape, corner);
  if (nth.panelNumber < 1 || nth.panelNumber > most) return null;
  return shape.panels[ownNumber(shape, corner, nth.panelNumber) - 1] ?? null;
}

/** Panels that can be counted from a corner: up the luff from the tack only those that reach the luff. */
function mostFrom({ sail, outline, panels }: SailShape, corner: Corner): number {
  const isUpTheLuff = sail.cut === 'cross-cut' && corner === 'tack';
  return isUpTheLuff ? panels.length + 1 - panelAtTack(outline, panels.length) : panels.length;
}

/** The number by convention of the nth panel from a corner. */
function ownNumber({ sail, outline, panels }: SailShape, corner: Corner, nthNumber: number): number {
  if (sail.cut === 'radial') return ((goresBefore(goreCounts(sail), corner) + nthNumber - 1) % panels.length) + 1;
  if (corner === 'head') return counted(nthNumber, panels.length).otherNumber;
  return corner === 'clew' ? nthNumber : panelAtTack(outline, panels.length) + nthNumber - 1;
}

/** The strip of a counted panel, or of its seam; else `damage.panel`, `damage.seam`. */
export function countedStrip(shape: SailShape, said: CountedFile, place: DamageAt): Result<Strip> {
  const corner = cornerOfCount(shape, said);
  const panel = panelCountedFrom(shape, corner, { panelNumber: said.panel });
  const at = (key: string): string => placeOf({ where: place.where, path: [...place.path, 'counted', key] });
  if (panel === null) {
    const most = mostFrom(shape, corner);
    return failed({
      code: 'damage.panel',
      where: at('panel'),
      what: `There is no panel ${said.panel} from the ${corner}: there are ${most}.`,
      expected: `1 to ${most}${most === shape.panels.length ? '' : ', the panels that reach the luff'}`,
      remedy: 'Count again, or correct sail.panelCount.',
    });
  }
  if (said.seam === undefined) return ok(panelStrip(panel));
  const isUpward = (said.seam === 'next') === (shape.sail.cut === 'radial' || corner !== 'head');
  const seam = isUpward ? panel.seamNext : panel.seamBefore;
  if (seam === null)
    return failed({
      code: 'damage.seam',
      where: at('seam'),
      what: `Panel ${said.panel} from the ${corner} has no panel of the same fan or sail on that side.`,
      expected: 'a seam between two panels',
      remedy: 'Name the other seam, or leave "seam" out.',
    });
  return ok({
    panel,
    isSeam: true,
    middle: seam,
    region: panel.region,
    across: panel.toNext,
    looseM: ON_SEAM_M,
  });
}

/** Somewhere in the panel: up to its greatest half width from the middle line (a gore widens from its corner on). */
function panelStrip(panel: Panel): Strip {
  const { middle, region, toNext } = panel;
  const offsetsM = region.map((corner) => Math.abs(dot(minus(corner, middle.from), toNext)));
  return { panel, isSeam: false, middle, region, across: toNext, looseM: Math.max(...offsetsM) };
}
