import fs from 'node:fs';
import path from 'node:path';
import { defaultDataDir, startEmbedded } from '../packages/database/src/embedded.ts';
import { isPostgres, readPidFile } from '../packages/database/src/embedded-process.ts';
import { keepDatabase } from './keep-database.ts';
import { root } from './paths.ts';
import { Refusal, say } from './progress.ts';
import { runTool, tsxArguments } from './run-tool.ts';
import type { ServerUrls } from './start-options.ts';
import { dataDirFrom, type State } from './state.ts';

export const embeddedDataDir = (): string => dataDirFrom(defaultDataDir(root));

export interface Database {
  readonly urls: ServerUrls;
  readonly reused: boolean;
  stop(): Promise<void>;
}

/**
 * The embedded server, started or joined, and its two addresses: owner of the tables, and the
 * program's own. With `keep` it is started again whenever it ends by itself.
 */
export async function startOwnDatabase({ keep = false } = {}): Promise<Database> {
  const dataDir = embeddedDataDir();
  const server = await startEmbedded({ dataDir });
  const kept = keep
    ? keepDatabase(server, (port) => startEmbedded({ dataDir, port }), say)
    : server;
  try {
    const urls = await prepare('accounts', { EMBEDDED_ADMIN_URL: server.adminUrl });
    return { urls: urls as ServerUrls, reused: server.reused, stop: () => kept.stop() };
  } catch (error) {
    await kept.stop();
    throw error;
  }
}

/** Photos belong to the records that go with them; a folder that somebody named is left alone. */
function deleteUploads(state: State): void {
  if (!state.uploadsAreOurs) return;
  for (const name of fs.readdirSync(state.uploadsDir)) {
    fs.rmSync(path.join(state.uploadsDir, name), { recursive: true, force: true });
  }
}

/** Deletes the embedded database and the uploads, and nothing else: the sign-in secret and the logs stay. */
export async function deleteOwnDatabase(state: State): Promise<void> {
  const dataDir = embeddedDataDir();
  const clusters = fs.existsSync(dataDir)
    ? fs.readdirSync(dataDir).filter((name) => /^\d+$/.test(name))
    : [];
  const held = () =>
    clusters.find((name) => {
      const noted = readPidFile(path.join(dataDir, name));
      return noted !== null && isPostgres(noted.pid, path.join(dataDir, name));
    });
  // A server left over from a start that was killed: taking it over lets us stop it.
  if (held() !== undefined) await startEmbedded({ dataDir }).then((server) => server.stop());
  const still = held();
  if (still !== undefined) {
    throw new Refusal(
      `The database in ${path.join(dataDir, still)} is in use by another program, so it was not reset.`,
    );
  }
  for (const name of clusters)
    fs.rmSync(path.join(dataDir, name), { recursive: true, force: true });
  deleteUploads(state);
}

export interface SignIn {
  readonly role: string;
  readonly email: string;
  readonly password: string;
}

async function prepare(task: string, env: Record<string, string>): Promise<unknown> {
  const args = tsxArguments('scripts/prepare-database.ts', [task]);
  const result = await runTool(process.execPath, args, { env });
  const output = result.output.trim();
  if (result.code !== 0) throw new Refusal(output);
  const answer: unknown = JSON.parse(output.slice(output.lastIndexOf('\n') + 1));
  return answer;
}

const namesOf = ({ appUrl, migratorUrl }: ServerUrls) => ({
  DATABASE_URL: appUrl,
  MIGRATOR_DATABASE_URL: migratorUrl,
});

/** Creates what is missing and applies the migrations that have not been applied yet; answers with their names. */
export async function provisionDatabase(urls: ServerUrls): Promise<string[]> {
  const { applied } = (await prepare('provision', namesOf(urls))) as { applied: string[] };
  return applied;
}

/** Loads the demo shop into an empty database; a second time it changes nothing. */
export async function loadDemoShop(
  urls: ServerUrls,
  uploadsDir: string,
): Promise<{ loaded: boolean; signIns: SignIn[] }> {
  const answer = await prepare('demo', { ...namesOf(urls), UPLOADS_DIR: uploadsDir });
  return answer as { loaded: boolean; signIns: SignIn[] };
}

/** Drops and makes again a database of somebody's own; start-options.ts has seen it named in the command. */
export async function recreateDatabase(urls: ServerUrls, state: State): Promise<void> {
  await prepare('recreate', namesOf(urls));
  deleteUploads(state);
}
