/** Rows that a browser keeps on its device, known by a key. Every call rejects where it does not. */
export interface KeptRows<Row> {
  all(): Promise<Row[]>;
  has(id: string): Promise<boolean>;
  /** All of them, or none. */
  put(...given: Row[]): Promise<unknown>;
  remove(...ids: string[]): Promise<unknown>;
}
