import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fitMixed, type MixedModel } from '@fairlead/labour';
import { expect, it } from 'vitest';

const STUDENTS = 2972;
const TEACHERS = 1128;

/** Numbers that follow from a seed: mulberry32 for even ones, Box & Muller for normal ones. */
function dice(seed: number) {
  let state = seed;
  const even = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  return { even, normal };
}

const numbered = (count: number) => Array.from({ length: count }, (_, level) => `${level + 1}`);

function crossed(y: Float64Array, s: Int32Array, d: Int32Array): MixedModel {
  return {
    y,
    fixed: [],
    groups: [
      { name: 's', levels: numbered(Math.max(...s) + 1), of: s },
      { name: 'd', levels: numbered(Math.max(...d) + 1), of: d },
    ],
    method: 'reml',
  };
}

function simulated(rows: number, students: number, teachers: number): MixedModel {
  const { even, normal } = dice(rows);
  const ofS = Array.from({ length: students }, () => 0.32 * normal());
  const ofD = Array.from({ length: teachers }, () => 0.51 * normal());
  const s = Int32Array.from({ length: rows }, () => Math.floor(even() * students));
  const d = Int32Array.from({ length: rows }, () => Math.floor(even() * teachers));
  const y = Float64Array.from(s, (one, row) => 3.2 + ofS[one]! + ofD[d[row]!]! + 1.18 * normal());
  return crossed(y, s, d);
}

/** Lecture ratings of ETH Zurich that R's lme4 carries (InstEval), fitted there too; undefined without R or lme4. */
function reference(folder: string) {
  const data = path.join(folder, 'rows.csv');
  const script = `suppressPackageStartupMessages(library(lme4)); d <- InstEval
    write.table(cbind(d$y, as.integer(d$s), as.integer(d$d)), "${data}", sep = ",", row.names = FALSE, col.names = FALSE)
    t <- system.time(m <- lmer(y ~ 1 + (1 | s) + (1 | d), d))
    v <- as.data.frame(VarCorr(m))$vcov
    cat(sprintf("%.3f,%.3f,%.10f,%.12g,%.12g,%.12g,%s,%s", t[["user.self"]] + t[["sys.self"]], t[["elapsed"]],
      -2 * as.numeric(logLik(m)), v[1], v[2], v[3], packageVersion("lme4"), extSoftVersion()["BLAS"]))`;
  const { status, stdout } = spawnSync('Rscript', ['-e', script], { encoding: 'utf8' });
  if (status !== 0) return undefined;
  const [cpu, wall, criterion, s, d, residual, version, blas] = stdout.split(',');
  const rows = fs
    .readFileSync(data, 'utf8')
    .trim()
    .split('\n')
    .map((line) => line.split(','));
  const column = (index: number) => rows.map((row) => Number(row[index]));
  const level = (index: number) => Int32Array.from(column(index), (value) => value - 1);
  return {
    model: crossed(Float64Array.from(column(0)), level(1), level(2)),
    cpu: Number(cpu),
    wall: Number(wall),
    criterion: Number(criterion),
    variances: [s, d, residual].map(Number),
    version,
    blas,
  };
}

function timed(model: MixedModel) {
  const processor = process.cpuUsage();
  const began = performance.now();
  const fit = fitMixed(model);
  const { user, system } = process.cpuUsage(processor);
  return { fit, wall: (performance.now() - began) / 1000, cpu: (user + system) / 1e6 };
}

const seconds = ({ cpu, wall }: { cpu: number; wall: number }) =>
  `processor ${cpu.toFixed(2)} s, wall ${wall.toFixed(2)} s`;

/** Wanted: less time than lme4 takes on the same rows, in the same run; both times and lme4's BLAS are printed. */
it('73,421 rows, 2,972 crossed with 1,128', { timeout: 1_200_000 }, () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fairlead-mixed-'));
  try {
    const theirs = reference(folder);
    const ours = timed(theirs?.model ?? simulated(73_421, STUDENTS, TEACHERS));
    const { fit } = ours;
    const [s, d] = fit.groups.map(({ covariance }) => covariance[0]!);
    const memory = Math.round(process.resourceUsage().maxRSS / 1024);
    console.info(
      `ours: ${seconds(ours)}; ${fit.iterations} steps, ${fit.evaluations} evaluations; variances ${s}, ${d}, ${fit.residual}; criterion ${fit.criterion}; ${memory} MB`,
    );
    if (theirs === undefined) {
      console.info('reference absent: no Rscript with lme4; the rows were simulated');
      return;
    }
    console.info(
      `lme4 ${theirs.version} (BLAS ${theirs.blas}): ${seconds(theirs)}; variances ${theirs.variances.join(', ')}; criterion ${theirs.criterion}`,
    );
    expect(fit.rows).toBe(73_421);
    // lme4's default search stops early: ours may be lower, never higher, and agrees as far as that search goes.
    expect(fit.criterion).toBeLessThan(theirs.criterion + 1e-5);
    expect(Math.abs(fit.criterion / theirs.criterion - 1)).toBeLessThan(1e-8);
    [s, d, fit.residual].forEach((variance, k) => {
      expect(Math.abs(variance! / theirs.variances[k]! - 1)).toBeLessThan(1e-3);
    });
    expect(ours.cpu).toBeLessThan(theirs.cpu);
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
});

/** Wanted: ten times the rows cost at most twelve times the processor time. */
it('growth from 10,000 to 100,000 rows', { timeout: 600_000 }, () => {
  timed(simulated(2000, 50, 40));
  const [small, large] = [10_000, 100_000].map((rows) => timed(simulated(rows, 400, 200)));
  console.info(`10,000 rows: ${seconds(small!)}; 100,000 rows: ${seconds(large!)}`);
  const ratio = large!.cpu / small!.cpu;
  console.info(`ratio ${ratio.toFixed(1)}; most memory ${process.resourceUsage().maxRSS >> 10} MB`);
  expect(ratio).toBeLessThan(12);
});
