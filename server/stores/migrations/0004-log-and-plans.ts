/** Which form a log entry came from, so that a form sent twice writes once; and what each plan was made of. */
export const logAndPlans = `
ALTER TABLE log_entry ADD COLUMN form_token TEXT CHECK (form_token IS NULL OR form_token <> '');
CREATE UNIQUE INDEX log_entry_form ON log_entry (passage_number, form_token) WHERE form_token IS NOT NULL;

ALTER TABLE plan ADD COLUMN made_of_json TEXT CHECK (made_of_json IS NULL OR json_valid(made_of_json));
`;
