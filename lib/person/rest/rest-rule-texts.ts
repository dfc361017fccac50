/** What the rest rules are worth to a lone sailor. */
export const REST_RULE_SCOPE_TEXT =
  'The rest rules of STCW and MLC bind merchant seafarers, not a private craft, and take for granted that somebody else has the watch. Rest is time off, not sleep.';

/** COLREG Rule 5 in our words. */
export const LOOKOUT_RULE_TEXT =
  'COLREG Rule 5: every vessel under way keeps a look-out at all times, by sight, by hearing and by all other means that suit. There is no exception for a lone sailor asleep: a plan with sleep is a plan with unwatched minutes.';
