import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { root } from './paths.ts';

/** What a step reads and what it leaves behind; paths from the root of the checkout. */
export interface StampedWork {
  readonly name: string;
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

const skipped = new Set(['node_modules', '.next', '.turbo', 'generated', 'tests', '.git']);

// Written beside the sources by what reads them: the first build of a fresh checkout makes the one for Next.
const written = /\.tsbuildinfo$|^next-env\.d\.ts$/;

function* filesBelow(relative: string): Generator<string> {
  const full = path.join(root, relative);
  const found = fs.statSync(full, { throwIfNoEntry: false });
  if (!found) return;
  if (found.isFile()) {
    yield relative;
    return;
  }
  const names = fs.readdirSync(full).sort();
  for (const name of names) {
    if (!skipped.has(name) && !written.test(name)) yield* filesBelow(path.join(relative, name));
  }
}

/** One hash over the names and contents of all inputs. Contents, not times: a fresh checkout has new times. */
export function hashOf(inputs: readonly string[]): string {
  const hash = createHash('sha256');
  for (const input of inputs) {
    for (const file of filesBelow(input)) {
      hash.update(`${file}\0`);
      hash.update(fs.readFileSync(path.join(root, file)));
      hash.update('\0');
    }
  }
  hash.update(process.versions.node.split('.')[0] ?? '');
  return hash.digest('hex');
}

/**
 * Does the work unless its inputs are the same as when it was last finished and its outputs are
 * still there. Answers whether there was anything to do. The stamp goes away before the work
 * begins, so work that is killed half-way is done again.
 */
export async function unlessUnchanged(
  work: StampedWork,
  run: () => Promise<void>,
): Promise<boolean> {
  const stamp = path.join(root, 'node_modules', '.cache', 'fairlead', work.name);
  const wanted = hashOf(work.inputs);
  const present = work.outputs.every((output) => fs.existsSync(path.join(root, output)));
  if (present && fs.existsSync(stamp) && fs.readFileSync(stamp, 'utf8') === wanted) return false;
  fs.rmSync(stamp, { force: true });
  await run();
  fs.mkdirSync(path.dirname(stamp), { recursive: true });
  fs.writeFileSync(stamp, wanted);
  return true;
}
