/** The database in which the bench keeps what it knew last; what is not sent yet lies in another, and stays. */
export const BENCH_DATABASE = 'fairlead-bench';

/** Takes what the bench knew off this device, for whoever signs in next. Never fails, and waits for nobody. */
export async function forgetBench({ program }: { program: boolean }): Promise<void> {
  try {
    indexedDB.deleteDatabase(BENCH_DATABASE);
    if (!program || typeof caches === 'undefined') return;
    const names = await caches.keys();
    await Promise.all(
      names.filter((name) => name.startsWith('fairlead-')).map((name) => caches.delete(name)),
    );
  } catch {
    // A browser that keeps nothing has nothing to forget.
  }
}
