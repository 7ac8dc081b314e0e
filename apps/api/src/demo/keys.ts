import { newId } from '../new-id.ts';

/** The rows that the readable keys of the demo's files stand for. */
export class Keys {
  readonly #ids = new Map<string, string>();

  /** Gives a key its row. */
  make(key: string): string {
    if (this.#ids.has(key)) throw new RangeError(`Two rows for "${key}": a key stands for one`);
    const id = newId();
    this.#ids.set(key, id);
    return id;
  }

  /** Names a row that is there already. */
  set(key: string, id: string): void {
    this.#ids.set(key, id);
  }

  of(key: string): string {
    const id = this.#ids.get(key);
    if (id === undefined)
      throw new RangeError(
        `Nothing is called "${key}": give one of ${[...this.#ids.keys()].join(', ')}`,
      );
    return id;
  }
}
