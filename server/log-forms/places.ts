/** Path of the entry in the problems of a form. */
export const ENTRY = 'entry';

/** What stands before it. */
export const WHERE = 'the log';
