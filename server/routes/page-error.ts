/** A refusal with a page of its own; its texts are shown to the user. */
export class PageError extends Error {
  readonly status: number;
  readonly title: string;

  constructor(status: number, title: string, text: string) {
    super(text);
    this.name = 'PageError';
    this.status = status;
    this.title = title;
  }
}
