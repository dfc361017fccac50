/** Forms of start, track, boat, watchkeeper and settings, as changes of the passage file. The only door of this folder. */
export { BOAT_FIELDS, handlingFields } from './boat-fields.ts';
export {
  atHandling,
  handlingIndex,
  ownHandling,
  withBoatFigures,
  withHandling,
  withNewHandling,
  withoutHandling,
  withSpeedTable,
} from './change-boat.ts';
export { withSettings } from './change-settings.ts';
export { shownStart, startFields, withStart } from './change-start.ts';
export {
  shownWaypoint,
  WAYPOINT_FIELDS,
  type WaypointFile,
  type WaypointPlace,
  waypointsIn,
  waypointsOf,
  withoutWaypoint,
  withTrack,
  withWaypoint,
  withWaypointMoved,
} from './change-track.ts';
export { atRows, shownWatchkeeper, withWatchkeeper } from './change-watchkeeper.ts';
export type { Texts } from './part.ts';
export { SETTINGS_FIELDS } from './settings-fields.ts';
export { PACE_KINDS, sleepFields, WATCHKEEPER_FIELDS } from './watchkeeper-fields.ts';
