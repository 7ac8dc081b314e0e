import type { Embedded } from '../packages/database/src/embedded.ts';
import { isAlive } from '../packages/database/src/embedded-process.ts';
import { pauseAfter } from './processes.ts';
import { type Say, seconds } from './progress.ts';

/**
 * Starts the embedded server again when it ends without being asked. It has to come back on the same
 * port: whoever lost it looks for it there.
 */
export function keepDatabase(
  first: Embedded,
  startAgain: (port: number) => Promise<Embedded>,
  say: Say,
): { stop(): Promise<void> } {
  let server = first;
  let failures = 0;
  let stopping = false;
  let wake = () => {};
  const pause = (milliseconds: number) =>
    new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, milliseconds);
      wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });

  const watch = async () => {
    while (!stopping) {
      await pause(500);
      if (stopping || isAlive(server.pid)) continue;
      say(`The database ended; starting it again on port ${first.port}.`);
      try {
        server = await startAgain(first.port);
        failures = 0;
        say('The database is running again.');
      } catch (error) {
        failures += 1;
        const wait = pauseAfter(failures);
        say(
          `${error instanceof Error ? error.message : String(error)}\nNext try in ${seconds(wait)}.`,
        );
        await pause(wait);
      }
    }
  };
  const watching = watch();
  return {
    stop: async () => {
      stopping = true;
      wake();
      await watching; // a server that is just starting has to be stopped as well
      await server.stop();
    },
  };
}
