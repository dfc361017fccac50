/** Catalogue of the forecast files that lie beside the database under their content hash. */
export const forecasts = `
CREATE TABLE forecast (
  hash TEXT PRIMARY KEY CHECK (length(hash) = 64),
  file_name TEXT NOT NULL,
  size_octets INTEGER NOT NULL CHECK (size_octets >= 0),
  added_at_epoch_ms INTEGER NOT NULL,
  summary_json TEXT CHECK (summary_json IS NULL OR json_valid(summary_json))
) STRICT, WITHOUT ROWID;
`;
