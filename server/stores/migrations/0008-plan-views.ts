/** What is shown of the latest plan of each passage, so that it is there at once after a restart; made again by any new plan. */
export const planViews = `
CREATE TABLE plan_view (
  passage_number INTEGER PRIMARY KEY REFERENCES passage (number),
  version INTEGER NOT NULL CHECK (version >= 1),
  log_number INTEGER NOT NULL CHECK (log_number >= 0),
  made_by TEXT NOT NULL CHECK (made_by <> ''),
  octets BLOB NOT NULL
) STRICT;
`;
