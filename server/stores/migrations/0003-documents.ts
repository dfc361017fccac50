/** Where a passage was taken over from, which one of a file is shown, and every version there was of each. */
export const documents = `
CREATE TABLE passage_source (
  passage_number INTEGER PRIMARY KEY REFERENCES passage (number),
  file TEXT NOT NULL CHECK (file <> ''),
  folder TEXT NOT NULL CHECK (folder <> ''),
  taken_hash TEXT NOT NULL CHECK (length(taken_hash) = 64),
  taken_at_epoch_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX passage_source_file ON passage_source (file);

CREATE TABLE passage_shown (
  file TEXT PRIMARY KEY,
  passage_number INTEGER NOT NULL REFERENCES passage (number)
) STRICT, WITHOUT ROWID;

CREATE TABLE passage_version (
  passage_number INTEGER NOT NULL REFERENCES passage (number),
  version INTEGER NOT NULL CHECK (version >= 1),
  name TEXT NOT NULL,
  json TEXT NOT NULL,
  saved_at_epoch_ms INTEGER NOT NULL,
  PRIMARY KEY (passage_number, version)
) STRICT, WITHOUT ROWID;

INSERT INTO passage_version (passage_number, version, name, json, saved_at_epoch_ms)
SELECT number, version, name, json, saved_at_epoch_ms FROM passage;

CREATE TRIGGER passage_created AFTER INSERT ON passage
BEGIN
  INSERT INTO passage_version (passage_number, version, name, json, saved_at_epoch_ms)
  VALUES (NEW.number, NEW.version, NEW.name, NEW.json, NEW.saved_at_epoch_ms);
END;
CREATE TRIGGER passage_saved AFTER UPDATE ON passage
BEGIN
  INSERT INTO passage_version (passage_number, version, name, json, saved_at_epoch_ms)
  VALUES (NEW.number, NEW.version, NEW.name, NEW.json, NEW.saved_at_epoch_ms);
END;
CREATE TRIGGER passage_version_no_update BEFORE UPDATE ON passage_version
BEGIN SELECT RAISE(ABORT, 'versions are only added to'); END;
CREATE TRIGGER passage_version_no_delete BEFORE DELETE ON passage_version
BEGIN SELECT RAISE(ABORT, 'versions are only added to'); END;
`;
