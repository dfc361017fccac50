/**
 * Weather of every scenario at a list of places and instants (a boat's course).
 *
 * Scenario arrays hold `scenarioCount · pointCount` values, scenario-major: value of scenario w at point i is
 * `[w * pointCount + i]`. Shared arrays hold `pointCount` values (control). NaN: the forecast does not hold it there.
 */
export interface WeatherAlong {
  readonly scenarioCount: number;
  readonly pointCount: number;
  /** 10 m wind over the ground. */
  readonly windKn: Float32Array;
  readonly windFromDegTrue: Float32Array;
  readonly gustKn: Float32Array;
  readonly seaHeightM: Float32Array;
  readonly wavePeriodS: Float32Array;
  readonly waveFromDegTrue: Float32Array;
  readonly pressureHpa: Float32Array;
  readonly rainMmPerH: Float32Array;
  readonly airC: Float32Array;
  readonly seaWaterC: Float32Array;
}

/** Places and instants; three arrays of equal length. */
export interface CoursePoints {
  readonly epochMs: Float64Array;
  readonly lat: Float64Array;
  readonly lon: Float64Array;
}
