import { rmSync } from 'node:fs';

/** Removes the shop's folder that playwright.config.ts made. Its servers hold nothing that is needed after this. */
export default function leaveNothing(): void {
  process.once('exit', () => {
    const folder = process.env.FAIRLEAD_JOURNEY_DIR;
    if (folder) rmSync(folder, { recursive: true, force: true });
  });
}
