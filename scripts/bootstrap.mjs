// The first thing that `npm start`, `npm test` and the other commands run. It may use nothing but
// Node itself: on a fresh clone there is no node_modules yet, and an old Node must still be able to
// read this file far enough to say that it is too old.
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const windows = process.platform === 'win32';
const say = (line) => process.stderr.write(`${line}\n`);

function giveUp(message) {
  say(message);
  process.exit(1);
}

function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  giveUp(
    `Fairlead needs Node 20.19 or newer; this is Node ${process.versions.node} (${process.execPath}).\n` +
      'Install a newer Node (for example from https://nodejs.org) and run the command again.',
  );
}

function writable(directory) {
  try {
    fs.accessSync(directory, fs.constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** npm, pnpm and turbo keep caches below HOME. Where it cannot be written, a private folder in temp stands in. */
function ensureHome() {
  const home = process.env.HOME ?? (windows ? process.env.USERPROFILE : undefined);
  if (windows || (home && writable(home))) return;
  const mine = process.getuid?.() ?? 'user';
  let standIn = path.join(os.tmpdir(), `fairlead-home-${mine}`);
  fs.mkdirSync(standIn, { recursive: true, mode: 0o700 });
  const found = fs.lstatSync(standIn);
  // Someone else could have put that name there first: then take one that nobody can guess.
  if (!found.isDirectory() || (process.getuid && found.uid !== process.getuid())) {
    standIn = fs.mkdtempSync(path.join(os.tmpdir(), 'fairlead-home-'));
  }
  process.env.HOME = standIn;
  process.env.npm_config_cache = path.join(standIn, '.npm');
  for (const name of ['XDG_CACHE_HOME', 'XDG_DATA_HOME', 'XDG_STATE_HOME', 'XDG_CONFIG_HOME']) {
    delete process.env[name];
  }
}

const stampFile = path.join(root, 'node_modules', '.fairlead-install');

/** What the installed packages follow from: the lock, the workspace, Node's major version, the platform. */
function wanted() {
  const hash = createHash('sha256');
  for (const name of ['pnpm-lock.yaml', 'pnpm-workspace.yaml']) {
    hash.update(fs.readFileSync(path.join(root, name)));
  }
  hash.update(`${process.versions.node.split('.')[0]} ${process.platform} ${process.arch}`);
  return hash.digest('hex');
}

/** Each workspace package with dependencies must have its node_modules: a stamp alone can outlive a deleted folder. */
function complete() {
  if (!fs.existsSync(path.join(root, 'node_modules', 'tsx', 'package.json'))) return false;
  const groups = ['apps', 'packages'].flatMap((group) =>
    fs.readdirSync(path.join(root, group)).map((name) => path.join(root, group, name)),
  );
  return [...groups, path.join(root, 'tests')].every((folder) => {
    const manifest = path.join(folder, 'package.json');
    if (!fs.existsSync(manifest)) return true;
    const { dependencies = {}, devDependencies = {} } = JSON.parse(
      fs.readFileSync(manifest, 'utf8'),
    );
    return [...Object.keys(dependencies), ...Object.keys(devDependencies)].every((name) =>
      fs.existsSync(path.join(folder, 'node_modules', name)),
    );
  });
}

function installed() {
  try {
    return fs.readFileSync(stampFile, 'utf8') === wanted() && complete();
  } catch {
    return false;
  }
}

function explainInstall(code, log, started) {
  const seconds = Math.round((Date.now() - started) / 1000);
  const tail = log.trim().split('\n').slice(-8).join('\n');
  if (
    /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|ECONNRESET|ENETUNREACH|ERR_PNPM_META_FETCH_FAIL|network/i.test(
      log,
    )
  ) {
    return (
      `${tail}\n\nThe packages could not be fetched (tried for ${seconds} s): the npm registry did not answer.\n` +
      'Check the network or the proxy settings (npm config get registry), then run the same command again.\n' +
      'What has been fetched so far is kept.'
    );
  }
  if (/ENOSPC/.test(log))
    return `${tail}\n\nThe disk is full. Free about 2 GB and run the same command again.`;
  return `${tail}\n\nInstalling the packages failed with code ${code} after ${seconds} s (see above).`;
}

function install() {
  const { packageManager } = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
  const packageName = packageManager.split('+')[0];
  // Removed first: an install that is killed half-way must not look finished to the next command.
  fs.rmSync(stampFile, { force: true });
  const started = Date.now();
  say(`Installing the packages with ${packageName} (once; a minute or so on a first run)`);
  const args = ['--yes', packageName, 'install', '--frozen-lockfile', '--prefer-offline'];
  args.push('--reporter=append-only', '--config.confirm-modules-purge=false');
  const child = spawn('npx', args, {
    cwd: root,
    shell: windows,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: {
      ...process.env,
      CI: '1', // no questions
      npm_config_update_notifier: 'false',
      npm_config_fetch_retries: process.env.npm_config_fetch_retries ?? '2',
      npm_config_fetch_retry_mintimeout: process.env.npm_config_fetch_retry_mintimeout ?? '1000',
    },
  });
  let log = '';
  let latest = '';
  const keep = (data) => {
    log = (log + data).slice(-20_000);
    latest = (/Progress: .*/.exec(String(data)) ?? [latest])[0];
  };
  child.stdout.on('data', keep);
  child.stderr.on('data', keep);
  const clock = setInterval(() => {
    say(`  … ${Math.round((Date.now() - started) / 1000)} s  ${latest}`);
  }, 5000);
  const passOn = (signal) => child.kill(signal);
  process.on('SIGINT', passOn);
  process.on('SIGTERM', passOn);
  return new Promise((resolve) => {
    child.once('error', (error) => {
      giveUp(
        `npx could not be run (${error.message}). It comes with npm: is npm installed and on PATH?`,
      );
    });
    child.once('close', (code, signal) => {
      clearInterval(clock);
      process.off('SIGINT', passOn);
      process.off('SIGTERM', passOn);
      if (signal)
        giveUp(`Installing was stopped by ${signal}. The next command takes it up again.`);
      if (code !== 0) giveUp(explainInstall(code, log, started));
      if (!complete()) {
        giveUp(
          'The packages are installed, but node_modules is not complete. Delete node_modules and run the command again.',
        );
      }
      fs.writeFileSync(stampFile, wanted());
      say(`Installed in ${Math.round((Date.now() - started) / 1000)} s`);
      resolve();
    });
  });
}

/** Runs scripts/<command>.ts as if it had been called directly: same streams, arguments, signals and exit code. */
function run(command, args) {
  const file = path.join(root, 'scripts', `${command}.ts`);
  if (!fs.existsSync(file)) giveUp(`There is no command "${command}" (looked for ${file}).`);
  // An absolute address: `--import tsx` would be looked up from the caller's folder, not from here.
  const tsx = pathToFileURL(path.join(root, 'node_modules', 'tsx', 'dist', 'loader.mjs')).href;
  const child = spawn(process.execPath, ['--import', tsx, file, ...args], {
    // The channel carries nothing. When this process is killed outright it closes, and the command notices.
    stdio: ['inherit', 'inherit', 'inherit', 'ipc'],
  });
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  for (const signal of signals) process.on(signal, () => child.kill(signal));
  watchNpm(() => child.kill('SIGTERM'));
  child.once('error', (error) => giveUp(`Node could not be started: ${error.message}`));
  child.once('exit', (code, signal) => {
    if (!signal) process.exit(code ?? 1);
    for (const name of signals) process.removeAllListeners(name);
    process.kill(process.pid, signal);
  });
}

/** Whose child a process is: on Linux, where it costs one read; elsewhere not known. */
function parentOf(pid) {
  try {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8');
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[1];
  } catch {
    return undefined;
  }
}

/**
 * npm runs this through a shell, and hands signals to the shell alone. When either of them is gone,
 * the person thinks that everything has stopped; so stop.
 */
function watchNpm(stop) {
  if (!process.env.npm_lifecycle_event || windows) return;
  const ancestors = () => `${process.ppid} ${parentOf(process.ppid)}`;
  const first = ancestors();
  const clock = setInterval(() => {
    if (ancestors() === first) return;
    clearInterval(clock);
    stop();
  }, 250);
  clock.unref();
}

checkNode();
const [command, ...args] = process.argv.slice(2);
if (!command || !/^[a-z][a-z-]*$/.test(command)) {
  giveUp(
    'Call this as: node scripts/bootstrap.mjs <start | test | labour | money | due | records | import-history> [arguments]',
  );
}
ensureHome();
if (!installed()) await install();
run(command, args);
