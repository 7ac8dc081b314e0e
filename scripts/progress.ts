/** Seconds with one decimal, for people: `3.2 s`, `1 min 05 s`. */
export function seconds(milliseconds: number): string {
  const total = milliseconds / 1000;
  if (total < 60) return `${total.toFixed(1)} s`;
  const minutes = Math.floor(total / 60);
  return `${minutes} min ${String(Math.floor(total % 60)).padStart(2, '0')} s`;
}

export type Say = (line: string) => void;

export const say: Say = (line) => {
  process.stdout.write(`${line}\n`);
};

/**
 * Runs one long step and says when it starts, that it still runs (every five seconds) and how long
 * it took. A step answers with a word on what it did ("already up to date"), or nothing.
 * Whole lines only, so that steps running side by side stay readable and logs stay plain.
 */
export async function step<T>(
  name: string,
  work: () => Promise<T>,
  describe: (result: T) => string = () => '',
): Promise<T> {
  const started = Date.now();
  const clock = setInterval(() => say(`  … ${name}: ${seconds(Date.now() - started)}`), 5000);
  try {
    const result = await work();
    const note = describe(result);
    say(`  ✓ ${name}${note ? `: ${note}` : ''} (${seconds(Date.now() - started)})`);
    return result;
  } catch (error) {
    say(`  ✗ ${name} failed after ${seconds(Date.now() - started)}`);
    throw error;
  } finally {
    clearInterval(clock);
  }
}

/** A failure that a person can act on: printed as a sentence, without a stack. */
export class Refusal extends Error {
  override readonly name = 'Refusal';
}
