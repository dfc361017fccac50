export { parseJsonText } from './json-text.ts';
export { placeOf, readShape, unknownKeyProblem, type At } from './read-shape.ts';
