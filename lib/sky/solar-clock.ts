import { MS_PER_H } from '../time/index.ts';

/** Local mean solar time [h], 0 inclusive to 24 exclusive: UTC and 15° of longitude an hour. */
export function localSolarH(epochMs: number, lon: number): number {
  const solarH = (epochMs / MS_PER_H + lon / 15) % 24;
  const wrappedH = solarH < 0 ? solarH + 24 : solarH;
  return wrappedH >= 24 ? 0 : wrappedH;
}
