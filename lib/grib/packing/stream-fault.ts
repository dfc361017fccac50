/** What is wrong with a compressed stream, before a message and a section are known. */
export interface StreamFault {
  /** Octet of the stream at which the fault was met, from 1. */
  readonly octet: number;
  /** One sentence: what stands there. */
  readonly what: string;
  readonly expected: string;
}
