/** The package has no types; these are the parts the tests use. */
declare module 'grib2-simple' {
  interface Message {
    readonly referenceTimestamp: number;
    readonly forecastTimestamp: number;
    /** null where the bitmap masks the point. */
    readonly getValue: (lon: number, lat: number) => number | null;
  }
  export default function parseCompleteGrib2Buffer(buffer: Buffer): Message[];
}
