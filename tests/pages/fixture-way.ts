/** A way over a forecast, straight from one place to another at one speed. */
import { greatCircle, type Position } from '../../lib/geo/index.ts';
import type { Covered } from '../../server/presenters/coverage/coverage-data.ts';
import { picture } from './fixture-plan.ts';

export function straightWay(
  from: Position,
  to: Position,
  hours = 66,
): Pick<Covered, 'nominal' | 'fromSlot' | 'untilSlot'> {
  const grid = { firstEpochMs: picture.nowEpochMs, slotMin: 60, slotCount: hours + 1 };
  const along = (one: number, other: number): Float64Array =>
    Float64Array.from({ length: hours + 1 }, (_, i) => one + ((other - one) * i) / hours);
  const nominal = {
    grid,
    lat: along(from.lat, to.lat),
    lon: along(from.lon, to.lon),
    alongNm: along(0, greatCircle(from, to).distanceNm),
  };
  return { nominal, fromSlot: 0, untilSlot: hours };
}
