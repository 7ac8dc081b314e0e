import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { labour } from '../../scripts/labour.ts';
import { runCommand } from './run-command.ts';

/** A folder for a file of tests, and how to write into it. */
export function folderFor(): { folder: string; write: (name: string, content: unknown) => string } {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fairlead-labour-'));
  const write = (name: string, content: unknown) => {
    const file = path.join(folder, name);
    fs.mkdirSync(path.dirname(file), { recursive: true });
    fs.writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
    return file;
  };
  return { folder, write };
}

export const run = (...args: string[]) => runCommand(labour, ...args);
