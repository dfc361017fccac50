import { formatLat, formatLon } from '../../../lib/geo/index.ts';
import { wrap180Deg } from '../../../lib/units/index.ts';
import { linePath, type MapFrame, pathOf } from './map-frame.ts';
import type { MapDrawing, MapLabel } from './map-model.ts';

/** Distances between lines of the graticule [minutes of arc]. */
const STEPS_MIN = [10, 15, 20, 30, 60, 120, 300, 600, 1200, 1800];
/** Words of two meridians stand so far apart. */
const LEAST_GAP_PX = 78;
/** Half a word, and a little: nearer to an edge no word stands. */
const HALF_WORD_PX = 28;

/** Meridians and parallels with their words outside of the map, and the 180th meridian by itself. */
export function mapGrid(frame: MapFrame): Pick<MapDrawing, 'graticule' | 'dateLine'> & { labels: MapLabel[] } {
  const { west, east, south, north } = frame.bounds;
  const stepMin = stepOf(frame);
  const lons = multiplesIn({ from: west, to: east }, stepMin);
  const lats = multiplesIn({ from: south, to: north }, stepMin);
  const meridian = (lon: number): string => {
    const { x } = frame.place({ lat: 0, lon });
    return pathOf([
      { x, y: frame.inside.top },
      { x, y: frame.inside.bottom },
    ]);
  };
  const parallel = (lat: number): string =>
    linePath(frame, [
      { lat, lon: west },
      { lat, lon: frame.centreLon },
      { lat, lon: east },
    ]);
  return {
    graticule: [...lons.filter((lon) => !isDateLine(lon)).map(meridian), ...lats.map(parallel)].join(''),
    dateLine: multiplesIn({ from: west, to: east }, 180 * 60)
      .filter(isDateLine)
      .map(meridian)
      .join(''),
    labels: [...lons.flatMap((lon) => lonLabel(frame, lon)), ...lats.flatMap((lat) => latLabel(frame, lat))],
  };
}

function stepOf({ bounds, inside }: MapFrame): number {
  const pxPerMin = (inside.right - inside.left) / ((bounds.east - bounds.west) * 60);
  return STEPS_MIN.find((stepMin) => stepMin * pxPerMin >= LEAST_GAP_PX) ?? 3600;
}

function multiplesIn(span: { from: number; to: number }, stepMin: number): number[] {
  const first = Math.ceil((span.from * 60) / stepMin);
  const last = Math.floor((span.to * 60) / stepMin);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => ((first + i) * stepMin) / 60);
}

const isDateLine = (lon: number): boolean => Math.abs(wrap180Deg(lon)) === 180;

function lonLabel(frame: MapFrame, lon: number): MapLabel[] {
  const { x } = frame.place({ lat: 0, lon });
  if (x < frame.inside.left + HALF_WORD_PX || x > frame.widthPx - HALF_WORD_PX) return [];
  const text = isDateLine(lon) ? '180°' : formatLon(lon, 0);
  return [{ text, x, y: frame.inside.bottom + 16, anchor: 'middle', kind: 'grid' }];
}

function latLabel(frame: MapFrame, lat: number): MapLabel[] {
  const { y } = frame.place({ lat, lon: frame.centreLon });
  if (y < frame.inside.top + 6 || y > frame.inside.bottom - 6) return [];
  return [{ text: formatLat(lat, 0), x: frame.inside.left - 6, y: y + 4, anchor: 'end', kind: 'grid' }];
}
