import type { RecordBookKind } from '@fairlead/database';

/**
 * Which kind of record book an item of work belongs in, by the chapter of its JASC code: 61 propeller, 62 to 67
 * rotor, 71 to 85 engine, everything else airframe. Common practice, no source.
 *
 * @example bookKindOf('7810') // → 'engine'
 */
export function bookKindOf(jasc: string): RecordBookKind {
  const chapter = Number(jasc.slice(0, 2));
  if (chapter >= 71 && chapter <= 85) return 'engine';
  if (chapter === 61) return 'propeller';
  return chapter >= 62 && chapter <= 67 ? 'rotor' : 'airframe';
}

/** Whether an item goes into a book of this kind; what has no book of its own goes into the airframe's. */
export function goesInto(
  jasc: string,
  kind: RecordBookKind,
  books: readonly { kind: RecordBookKind }[],
): boolean {
  const own = bookKindOf(jasc);
  const there = books.some((book) => book.kind === own) ? own : 'airframe';
  return there === kind;
}
