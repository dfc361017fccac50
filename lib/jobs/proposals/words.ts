/** Hours, as whole ones. */
export const hoursText = (lengthH: number): string => `${Math.round(lengthH)} h`;

/** What a proposal has unless it says otherwise. */
export const NOTHING = { waitH: null, savesMin: null, add: null, orders: [] } as const;
