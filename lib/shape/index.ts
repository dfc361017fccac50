export { placeOf, readShape, unknownKeyProblem, type At } from './read-shape.ts';
