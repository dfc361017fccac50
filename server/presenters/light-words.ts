/** Light by the height of the sun, in words: civil twilight is light enough to work by, nautical is not. */
export const lightWords = { day: 'day', civil: 'twilight', nautical: 'deep twilight', night: 'night' } as const;
