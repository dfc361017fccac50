export { MOST_SUMMARY_CHARACTERS, packDigest, readDigestBody, unpackDigest, writeDigestBody } from './body.ts';
export type { Digest } from './digest.ts';
export { forecastOfDigest } from './digest-forecast.ts';
export { digestOfPassage, type PassageDigestInput } from './passage-digest.ts';
export { digestText } from './digest-text.ts';
