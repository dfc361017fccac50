/** A request as it goes on the wire. */
export interface SentRequest {
  readonly octets: Buffer;
  readonly story: string;
  /** Whole and well framed: it must be answered. Others may be dropped. */
  readonly isWhole: boolean;
}
