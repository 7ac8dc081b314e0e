/** Something an entry still lacks before it may be signed. */
export interface MissingElement {
  /** "14 CFR 43.9(a)(1)", or "shop rule" for what the shop asks beyond the regulation. */
  readonly paragraph: string;
  readonly what: string;
  readonly remedy: string;
}
