import { vi } from 'vitest';

/** Runs a command in this process: its exit code, and what it wrote where. */
export function runCommand(
  command: (args: readonly string[]) => number,
  ...args: string[]
): { code: number; out: string; told: string } {
  const written = { out: '', told: '' };
  const keep = (where: 'out' | 'told') => (text: string | Uint8Array) => {
    written[where] += String(text);
    return true;
  };
  const out = vi.spyOn(process.stdout, 'write').mockImplementation(keep('out'));
  const told = vi.spyOn(process.stderr, 'write').mockImplementation(keep('told'));
  try {
    return { code: command(args), ...written };
  } finally {
    out.mockRestore();
    told.mockRestore();
  }
}
