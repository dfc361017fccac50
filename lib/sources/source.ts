/** A published work that a figure in this program comes from. */
export interface Source {
  readonly title: string;
  /** Authors or the body that publishes it. */
  readonly who: string;
  readonly year: number;
  /** Where it can be found: journal and pages, publisher and number, DOI or address. */
  readonly where: string;
}
