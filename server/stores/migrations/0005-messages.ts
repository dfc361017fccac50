/** Messages that were written here or taken over from elsewhere. A counter is used once, whatever the passage. */
export const messages = `
CREATE TABLE message (
  passage_number INTEGER NOT NULL REFERENCES passage (number),
  number INTEGER NOT NULL CHECK (number >= 1),
  direction TEXT NOT NULL CHECK (direction IN ('sent', 'received')),
  kind TEXT NOT NULL CHECK (kind <> ''),
  sender TEXT NOT NULL CHECK (sender <> ''),
  counter_number INTEGER NOT NULL CHECK (counter_number >= 1),
  fingerprint TEXT NOT NULL CHECK (fingerprint <> ''),
  signature TEXT NOT NULL CHECK (signature <> ''),
  made_at_epoch_ms INTEGER NOT NULL,
  text TEXT NOT NULL CHECK (text <> ''),
  of_json TEXT NOT NULL CHECK (json_valid(of_json)),
  written_at_epoch_ms INTEGER NOT NULL,
  form_token TEXT CHECK (form_token IS NULL OR form_token <> ''),
  PRIMARY KEY (passage_number, number)
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX message_sent ON message (kind, sender, counter_number) WHERE direction = 'sent';
CREATE UNIQUE INDEX message_received ON message (passage_number, fingerprint, signature) WHERE direction = 'received';
CREATE UNIQUE INDEX message_form ON message (passage_number, form_token) WHERE form_token IS NOT NULL;

CREATE TRIGGER message_no_update BEFORE UPDATE ON message
BEGIN SELECT RAISE(ABORT, 'messages are only added to'); END;
CREATE TRIGGER message_no_delete BEFORE DELETE ON message
BEGIN SELECT RAISE(ABORT, 'messages are only added to'); END;
`;
