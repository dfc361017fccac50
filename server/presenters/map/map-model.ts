/** The passage on a map, as data: everything placed, nothing drawn. Pixels run right and down from the upper left. */

export interface PxPoint {
  readonly x: number;
  readonly y: number;
}

export interface MapLabel extends PxPoint {
  readonly text: string;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly kind: 'grid' | 'scale' | 'job' | 'now';
}

/** The map in one size. */
export interface MapDrawing {
  readonly widthPx: number;
  readonly heightPx: number;
  /** The map itself; words of the graticule and the scale stand outside of it. */
  readonly inside: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };
  /** Paths in the syntax of SVG; empty: nothing of it lies in the map. */
  readonly land: string;
  readonly graticule: string;
  readonly dateLine: string;
  readonly track: string;
  readonly way: string;
  readonly sleeps: readonly string[];
  readonly runs: readonly string[];
  readonly scaleBar: string;
  readonly now: PxPoint;
  readonly jobs: readonly (PxPoint & { readonly isChosen: boolean })[];
  /** From a place to a label that stands away from it. */
  readonly leaders: readonly string[];
  readonly labels: readonly MapLabel[];
}

/** One line of the table: the map in words. */
export interface MapRow {
  readonly key: string;
  /** Its number on the map; empty: sleep. */
  readonly number: string;
  readonly name: string;
  readonly isChosen: boolean;
  readonly time: string;
  readonly position: string;
  /** Where it takes the boat; empty: it does not run before the wind, or nothing is known of it. */
  readonly runsOff: string;
}

export interface SeaMap {
  readonly title: string;
  /** What decides about sea room, or that there is plenty. */
  readonly sentence: string;
  readonly desk: MapDrawing;
  readonly phone: MapDrawing;
  readonly rows: readonly MapRow[];
  readonly note: string;
}
