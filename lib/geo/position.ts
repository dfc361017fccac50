/** A place on the earth: signed degrees, north and east positive; lon in [-180, 180]. */
export interface Position {
  readonly lat: number;
  readonly lon: number;
}
