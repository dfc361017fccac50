/** What the strip shows, in the units it shows; where on the page it stands is the charts' business. Types only. */

export interface StripModel {
  readonly title: string;
  readonly subtitle: string;
  /** What can be done on a screen; absent: nothing. */
  readonly screenHint?: string;
  /** Said instead of the picture. */
  readonly description: string;
  readonly axis: TimeAxis;
  readonly light: readonly LightSpan[];
  readonly barbs: readonly Barb[];
  /** Chance, deck wind, sea, steepness, rain, air, sea water, visibility, alertness, in this order; what does not bind is left out. */
  readonly values: readonly ValueLane[];
  /** Start times, work on deck, work below, sleep. */
  readonly blocks: readonly BlockLane[];
  readonly key: readonly KeyEntry[];
  /** What must be said wherever sleep is shown; null: none is. */
  readonly lookout: string | null;
  readonly table: StripTable;
  /** Hours in which the moon is up; absent: not shown. */
  readonly moon?: readonly MoonSpan[];
  /** A start that is looked at; absent: none. */
  readonly pick?: PickedStart;
  /** Hours that can be pointed at, and what stands at each; absent: none. */
  readonly reading?: HourReading;
}

/** `useful`: high and full enough to work by, if the sky lets it through. */
export interface MoonSpan extends TimeSpan {
  readonly kind: 'up' | 'useful';
}

/** From the start to the end of the planned work, and to where the weather must hold. */
export interface PickedStart extends TimeSpan {
  readonly holdEpochMs: number;
  readonly text: string;
}

/** All values of every hour of a strip; one hour is shown, the others wait to be pointed at. */
export interface HourReading {
  /** What the values are, in order; the first two are ship’s time and UTC. */
  readonly terms: readonly string[];
  readonly rows: readonly HourRow[];
  readonly shownIndex: number;
  /** `read`: an hour pressed is only shown; `look`: it is opened as a start. */
  readonly pressed: 'read' | 'look';
  /** Where an hour can be looked at as a start; null: nowhere. The instant in UTC goes behind `hrefBefore`. */
  readonly more: { readonly text: string; readonly hrefBefore: string } | null;
}

/** One hour, or two where the axis is long. */
export interface HourRow extends TimeSpan {
  readonly utc: string;
  /** The page with this hour shown. */
  readonly href: string;
  /** One for each term. */
  readonly values: readonly string[];
}

export interface TimeAxis {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  readonly nowEpochMs: number;
  readonly nowText: string;
  readonly days: readonly DaySpan[];
  readonly ticks: readonly { readonly atEpochMs: number; readonly text: string }[];
  readonly midnights: readonly number[];
}

export interface TimeSpan {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
}

export interface DaySpan extends TimeSpan {
  readonly text: string;
}

export interface LightSpan extends TimeSpan {
  readonly kind: 'day' | 'civil' | 'nautical' | 'night';
  readonly text: string;
}

export interface Barb {
  readonly atEpochMs: number;
  readonly fromDegTrue: number;
  readonly pennantCount: number;
  readonly fullCount: number;
  readonly halfCount: number;
  readonly calm: boolean;
  /** Seen with the back to the wind. */
  readonly side: 'left' | 'right';
  readonly title: string;
}

export interface ValueLane {
  readonly id: 'chance' | 'wind' | 'sea' | 'steepness' | 'rain' | 'air' | 'sea-water' | 'visibility' | 'alertness';
  readonly name: string;
  readonly unit: string;
  /** What belongs to the name and has no room beside it: the handling. */
  readonly underName: readonly string[];
  /** Name and unit for a narrow column. */
  readonly shortName: string;
  readonly shortUnit: string;
  readonly least: number;
  readonly most: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
  readonly epochMs: readonly number[];
  readonly bands: readonly Band[];
  readonly curves: readonly Curve[];
  readonly limits: readonly LimitLine[];
  readonly unknown: readonly TimeSpan[];
  /** Stands where the limit labels would: `no limit`. */
  readonly note: string | null;
}

/** null: unknown there. */
type Values = readonly (number | null)[];

export interface Band {
  readonly kind: 'outer' | 'inner' | 'gust';
  readonly low: Values;
  readonly high: Values;
}

export interface Curve {
  readonly kind: 'median' | 'gust' | 'chance' | 'true-wind' | 'no-go';
  readonly values: Values;
}

export interface LimitLine {
  readonly kind: 'ideal' | 'caution' | 'no-go' | 'gust' | 'gate' | 'handling' | 'wanted';
  readonly value: number;
  readonly text: string;
}

export interface BlockLane {
  readonly id: 'starts' | 'deck' | 'below' | 'sleep';
  readonly name: string;
  readonly blocks: readonly Block[];
  /** Start times of the chosen job. */
  readonly windows: readonly (TimeSpan & { readonly conditional: boolean })[];
}

export interface Block extends TimeSpan {
  readonly kind: 'planned' | 'conditional' | 'wait' | 'sleep' | 'start' | 'start-conditional';
  readonly isChosen: boolean;
  /** Empty: no label. */
  readonly text: string;
  /** The same in at most two short lines. */
  readonly lines: readonly string[];
  readonly title: string;
}

export interface KeyEntry {
  readonly kind:
    | 'median'
    | 'inner'
    | 'outer'
    | 'gust'
    | 'ideal'
    | 'caution'
    | 'no-go'
    | 'window'
    | 'planned'
    | 'conditional'
    | 'sleep'
    | 'unknown'
    | 'chance'
    | 'gust-fan'
    | 'true-wind'
    | 'pick'
    | 'moon';
  readonly text: string;
}

export interface StripTable {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}
