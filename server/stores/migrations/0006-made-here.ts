/** Passages made on the pages: `form_token` is of the form that made one; a document with none was taken over from its file. */
export const madeHere = `
ALTER TABLE passage_source ADD COLUMN form_token TEXT CHECK (form_token IS NULL OR form_token <> '');
CREATE UNIQUE INDEX passage_source_form ON passage_source (form_token) WHERE form_token IS NOT NULL;
`;
