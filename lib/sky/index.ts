export { moonAt, moonEventsBetween, type Moon, type MoonEvent } from './moon.ts';
export { localSolarH } from './solar-clock.ts';
export {
  lightAt,
  nextRiseOrSet,
  sunAltitudeDeg,
  sunEventsAround,
  sunEventsBetween,
  sunSeen,
  type Light,
  type SunEvent,
  type SunEventKind,
} from './sun.ts';
