import path from 'node:path';
import { Refusal } from './progress.ts';

/** Answers go to standard output as JSON, everything else to standard error. */
export const tell = (line: string): void => void process.stderr.write(`${line}\n`);
export const answer = (value: unknown): void =>
  void process.stdout.write(`${JSON.stringify(value)}\n`);

/** The command was called wrongly. */
export class UsageError extends Error {}

export type Arguments = {
  readonly files: readonly string[];
  readonly values: ReadonlyMap<string, string>;
  readonly flags: ReadonlySet<string>;
};

/** Where the person who calls stands: npm runs scripts from the project's folder. */
export const fromHere = (file: string): string =>
  path.resolve(process.env['INIT_CWD'] ?? process.cwd(), file);

/** Files, options with a value and options without one; anything else is an error by name. */
export function argumentsOf(
  args: readonly string[],
  files: readonly string[],
  valued: readonly string[] = [],
  flags: readonly string[] = [],
): Arguments {
  const found: string[] = [];
  const values = new Map<string, string>();
  const set = new Set<string>();
  for (let index = 0; index < args.length; index += 1) {
    const given = args[index]!;
    const [name = '', inline] = given.startsWith('--') ? given.split(/=(.*)/s) : [given];
    if (flags.includes(given)) set.add(given);
    else if (valued.includes(name)) {
      const value = inline ?? args[(index += 1)];
      if (!value || value.startsWith('--')) throw new UsageError(`${name} needs a value after it.`);
      if (values.has(name)) throw new UsageError(`${name} was given twice.`);
      values.set(name, value);
    } else if (given.startsWith('-')) throw new UsageError(`"${given}" is not an option here.`);
    else found.push(given);
  }
  if (found.length !== files.length) {
    throw new UsageError(
      `It needs ${files.join(' and ')}; got ${found.length === 0 ? 'nothing' : found.join(' ')}.`,
    );
  }
  return { files: found.map(fromHere), values, flags: set };
}

/** Says what went wrong, and answers with the exit code for it; throws on what is a fault of ours. */
function explain(name: string, usage: string, error: unknown): number {
  if (error instanceof UsageError) {
    tell(`${name}: ${error.message}\n\n${usage}`);
    return 2;
  }
  const isRefusal =
    error instanceof Refusal || error instanceof RangeError || error instanceof TypeError;
  if (!isRefusal) throw error;
  tell(error.message);
  return 1;
}

/**
 * Runs one command and says what went wrong.
 *
 * @returns the exit code: 0 answered, 1 refused because of what was given, 2 called wrongly
 */
export function runCommand(name: string, usage: string, work: () => void): number {
  try {
    work();
    return 0;
  } catch (error) {
    return explain(name, usage, error);
  }
}

/** The same for a command that takes its time; it says its exit code itself. */
export async function runLongCommand(
  name: string,
  usage: string,
  work: () => Promise<number>,
): Promise<number> {
  try {
    return await work();
  } catch (error) {
    return explain(name, usage, error);
  }
}

/** Runs the command that comes first among the arguments. */
export function runOneOf(
  commands: Readonly<Record<string, (args: readonly string[]) => void>>,
  usage: string,
  args: readonly string[],
): number {
  const [name, ...rest] = args;
  if (args.includes('--help')) {
    process.stdout.write(`${usage}\n`);
    return 0;
  }
  const command = name !== undefined && Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (name === undefined || command === undefined) {
    const what =
      name === undefined ? 'What is to be done?' : `"${name}" is not one of its commands.`;
    tell(`${what}\n\n${usage}`);
    return 2;
  }
  return runCommand(name, usage, () => command(rest));
}
