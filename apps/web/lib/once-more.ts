/**
 * Work that is asked for more often than it can be done: never twice at once and never cut off, and whoever asks is
 * followed by one whole round that began after.
 *
 * @param work may fail: the next asking begins anew
 * @example const ask = onceMore(read); ask(); ask(); ask() // → two rounds
 */
export function onceMore(work: () => Promise<unknown>): () => void {
  let going = false;
  let asked = false;
  const round = async () => {
    going = true;
    asked = false;
    await work().catch(() => undefined);
    going = false;
    if (asked) void round();
  };
  return () => {
    if (going) asked = true;
    else void round();
  };
}
