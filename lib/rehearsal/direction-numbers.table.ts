/**
 * Direction numbers of the dimensions after the first: degree s of the primitive polynomial, its inner coefficients as
 * bits a, and the s initial numbers m.
 *
 * S. Joe, F. Y. Kuo, "Constructing Sobol sequences with better two-dimensional projections", SIAM J. Sci. Comput. 30
 * (2008), 2635-2654: the first rows of their table new-joe-kuo-6.21201, copyright (c) 2008 Frances Y. Kuo and Stephen
 * Joe, free to redistribute with this notice (BSD style). Read from the copy that SciPy 1.17.1 carries.
 */
export interface DirectionRow {
  readonly degreeCount: number;
  readonly innerBits: number;
  readonly initialNumbers: readonly number[];
}

const row = (degreeCount: number, innerBits: number, initialNumbers: readonly number[]): DirectionRow => ({
  degreeCount,
  innerBits,
  initialNumbers,
});

export const DIRECTION_ROWS: readonly DirectionRow[] = [
  row(1, 0, [1]),
  row(2, 1, [1, 3]),
  row(3, 1, [1, 3, 1]),
  row(3, 2, [1, 1, 1]),
  row(4, 1, [1, 1, 3, 3]),
  row(4, 4, [1, 3, 5, 13]),
  row(5, 2, [1, 1, 5, 5, 17]),
  row(5, 4, [1, 1, 5, 5, 5]),
  row(5, 7, [1, 1, 7, 11, 19]),
  row(5, 11, [1, 1, 5, 1, 1]),
  row(5, 13, [1, 1, 1, 3, 11]),
  row(5, 14, [1, 3, 5, 5, 31]),
  row(6, 1, [1, 3, 3, 9, 7, 49]),
  row(6, 13, [1, 1, 1, 15, 21, 21]),
  row(6, 16, [1, 3, 1, 13, 27, 49]),
  row(6, 19, [1, 1, 1, 15, 7, 5]),
  row(6, 22, [1, 3, 1, 15, 13, 25]),
  row(6, 25, [1, 1, 5, 5, 19, 61]),
  row(7, 1, [1, 3, 7, 11, 23, 15, 103]),
  row(7, 4, [1, 3, 7, 13, 13, 15, 69]),
  row(7, 7, [1, 1, 3, 13, 7, 35, 63]),
  row(7, 8, [1, 3, 5, 9, 1, 25, 53]),
  row(7, 14, [1, 3, 1, 13, 9, 35, 107]),
  row(7, 19, [1, 3, 1, 5, 27, 61, 31]),
  row(7, 21, [1, 1, 5, 11, 19, 41, 61]),
  row(7, 28, [1, 3, 5, 3, 3, 13, 69]),
  row(7, 31, [1, 1, 7, 13, 1, 19, 1]),
  row(7, 32, [1, 3, 7, 5, 13, 19, 59]),
  row(7, 37, [1, 1, 3, 9, 25, 29, 41]),
  row(7, 41, [1, 3, 5, 13, 23, 1, 55]),
  row(7, 42, [1, 3, 7, 3, 13, 59, 17]),
  row(7, 50, [1, 3, 1, 3, 5, 53, 69]),
  row(7, 55, [1, 1, 5, 5, 23, 33, 13]),
  row(7, 56, [1, 1, 7, 7, 1, 61, 123]),
  row(7, 59, [1, 1, 7, 9, 13, 61, 49]),
  row(7, 62, [1, 3, 3, 5, 3, 55, 33]),
  row(8, 14, [1, 3, 1, 15, 31, 13, 49, 245]),
  row(8, 21, [1, 3, 5, 15, 31, 59, 63, 97]),
  row(8, 22, [1, 3, 1, 11, 11, 11, 77, 249]),
  row(8, 38, [1, 3, 1, 11, 27, 43, 71, 9]),
  row(8, 47, [1, 1, 7, 15, 21, 11, 81, 45]),
  row(8, 49, [1, 3, 7, 3, 25, 31, 65, 79]),
  row(8, 50, [1, 3, 1, 1, 19, 11, 3, 205]),
  row(8, 52, [1, 1, 5, 9, 19, 21, 29, 157]),
  row(8, 56, [1, 3, 7, 11, 1, 33, 89, 185]),
  row(8, 67, [1, 3, 3, 3, 15, 9, 79, 71]),
  row(8, 70, [1, 3, 7, 11, 15, 39, 119, 27]),
];
