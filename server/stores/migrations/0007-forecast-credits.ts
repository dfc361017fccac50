/** Who is to be named for a forecast that was fetched from a source, and on which terms it may be used, as JSON. */
export const forecastCredits = `
ALTER TABLE forecast ADD COLUMN credit_json TEXT CHECK (credit_json IS NULL OR json_valid(credit_json));
`;
