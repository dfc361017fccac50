/** Passages, and what is only ever added to: the log and the plans. */
export const passages = `
CREATE TABLE passage (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  version INTEGER NOT NULL CHECK (version >= 1),
  json TEXT NOT NULL CHECK (json_valid(json)),
  saved_at_epoch_ms INTEGER NOT NULL
) STRICT;

CREATE TABLE log_entry (
  passage_number INTEGER NOT NULL REFERENCES passage (number),
  number INTEGER NOT NULL CHECK (number >= 1),
  kind TEXT NOT NULL CHECK (kind <> ''),
  at_epoch_ms INTEGER NOT NULL,
  json TEXT NOT NULL CHECK (json_valid(json)),
  written_at_epoch_ms INTEGER NOT NULL,
  PRIMARY KEY (passage_number, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan (
  passage_number INTEGER NOT NULL REFERENCES passage (number),
  number INTEGER NOT NULL CHECK (number >= 1),
  seed INTEGER NOT NULL,
  made_at_utc TEXT NOT NULL,
  json TEXT NOT NULL CHECK (json_valid(json)),
  written_at_epoch_ms INTEGER NOT NULL,
  PRIMARY KEY (passage_number, number)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER log_entry_no_update BEFORE UPDATE ON log_entry
BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;
CREATE TRIGGER log_entry_no_delete BEFORE DELETE ON log_entry
BEGIN SELECT RAISE(ABORT, 'the log is only added to'); END;
CREATE TRIGGER plan_no_update BEFORE UPDATE ON plan
BEGIN SELECT RAISE(ABORT, 'plans are only added to'); END;
CREATE TRIGGER plan_no_delete BEFORE DELETE ON plan
BEGIN SELECT RAISE(ABORT, 'plans are only added to'); END;
`;
