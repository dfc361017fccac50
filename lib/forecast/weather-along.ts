/**
 * Weather of every scenario at a list of places and instants (a boat's course).
 *
 * Scenario arrays (wind, gust, sea height) hold `scenarioCount · pointCount` values, scenario-major: value of
 * scenario w at point i is `[w * pointCount + i]`. Shared arrays (all others) hold `pointCount` values of the control
 * forecast, or of the members' mean where there is no control. NaN: the forecast does not hold it there.
 */
export interface WeatherAlong {
  readonly scenarioCount: number;
  readonly pointCount: number;
  /** Of each scenario, in any unit. */
  readonly weights: Int32Array;
  /** 10 m wind over the ground. */
  readonly windKn: Float32Array;
  readonly windFromDegTrue: Float32Array;
  readonly gustKn: Float32Array;
  /** Significant height of wind sea and swell together. */
  readonly seaHeightM: Float32Array;
  /** Shared from here on. */
  readonly wavePeriodS: Float32Array;
  readonly waveFromDegTrue: Float32Array;
  readonly pressureHpa: Float32Array;
  readonly rainMmPerH: Float32Array;
  readonly airC: Float32Array;
  /** Relative humidity at 2 m, 0 to 1. */
  readonly humidityRatio: Float32Array;
  readonly seaWaterC: Float32Array;
  readonly visibilityNm: Float32Array;
}

/** Places and instants; three arrays of equal length. */
export interface CoursePoints {
  readonly epochMs: Float64Array;
  readonly lat: Float64Array;
  readonly lon: Float64Array;
}
