/** The next 32 random bits, as a signed integer. */
export type Bits = () => number;

/** Bits with the state behind them, which a loop may take over and give back. */
export type SeededBits = Bits & { readonly state: Int32Array };

/**
 * xoshiro128** 1.1: 32 random bits at a time from four words of state, the same on every machine.
 * Blackman & Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47(4), 2021.
 *
 * @param words four 32-bit words, not all zero
 * @throws RangeError when all are zero, from where it would never move
 */
export function xoshiro128(words: readonly [number, number, number, number]): SeededBits {
  const state = Int32Array.from(words);
  if (state.every((word) => word === 0))
    throw new RangeError('The four words of state must not all be 0.');
  const next = () => {
    let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
    return result;
  };
  return Object.assign(next, { state });
}

/**
 * Seeded bits: xoshiro128** with its state filled by SplitMix64 (Steele, Lea & Flood, OOPSLA 2014),
 * so that neighbouring seeds give unrelated streams.
 *
 * @param seed a whole number from 0 to 2⁵³ − 1
 * @throws RangeError for any other seed
 */
export function seededBits(seed: number): SeededBits {
  if (!Number.isSafeInteger(seed) || seed < 0) {
    throw new RangeError(`Seed must be a whole number from 0 to 2^53 - 1; got ${seed}.`);
  }
  const first = splitMix64(BigInt(seed));
  const second = splitMix64(BigInt(seed) + GOLDEN);
  const word = (value: bigint) => Number(BigInt.asIntN(32, value));
  return xoshiro128([word(first), word(first >> 32n), word(second), word(second >> 32n)]);
}

const GOLDEN = 0x9e3779b97f4a7c15n;

/** The output of SplitMix64 that follows the given state. */
export function splitMix64(state: bigint): bigint {
  let z = BigInt.asUintN(64, state + GOLDEN);
  z = BigInt.asUintN(64, (z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n);
  z = BigInt.asUintN(64, (z ^ (z >> 27n)) * 0x94d049bb133111ebn);
  return z ^ (z >> 31n);
}

/** A uniform number strictly between 0 and 1. */
export const uniform = (bits: Bits): number => ((bits() >>> 0) + 0.5) / 4294967296;

/** Layers of the ziggurat: 128 of equal area under exp(−x²/2), the lowest with the tail beyond 3.44. */
const LAYERS = 128;
const TAIL = 3.442619855899;
const AREA = 9.91256303526217e-3;
const density = (x: number): number => Math.exp(-0.5 * x * x);
const edges = new Float64Array(LAYERS + 1);
edges[0] = AREA / density(TAIL);
edges[1] = TAIL;
for (let i = 2; i < LAYERS; i += 1) {
  const outer = edges[i - 1] ?? 0;
  edges[i] = Math.sqrt(-2 * Math.log(AREA / outer + density(outer)));
}

/** What one step of the place moves within each layer. */
const steps = edges.map((edge) => edge / 8388608);

/** A value beyond the last edge of the ziggurat, by Marsaglia's exact method for the normal tail. */
function tail(bits: Bits): number {
  for (;;) {
    const beyond = -Math.log(uniform(bits)) / TAIL;
    if (-2 * Math.log(uniform(bits)) > beyond * beyond) return TAIL + beyond;
  }
}

/**
 * A standard normal value, by the ziggurat of Marsaglia & Tsang, J. Stat. Softw. 5(8), 2000: the low
 * seven bits choose the layer, the upper 24, read with their sign, the place within it. (Reading the
 * sign with the place spares a branch that no processor can predict.)
 */
export const standardNormal = (bits: Bits): number => normalFrom(bits(), bits);

/** The value that a word chooses; or, where it lies outside of the curve, one that further words do. */
function normalFrom(first: number, bits: Bits): number {
  for (let word = first; ; word = bits()) {
    const layer = word & 127;
    const outer = edges[layer] ?? 0;
    const x = ((word >> 8) + 0.5) * (outer / 8388608);
    const inner = edges[layer + 1] ?? 0;
    if (Math.abs(x) < inner) return x;
    if (layer === 0) return x < 0 ? -tail(bits) : tail(bits);
    const height = density(outer) + uniform(bits) * (density(inner) - density(outer));
    if (height < density(x)) return x;
  }
}

/** Fills an array with the values that as many calls of `standardNormal` would give, in a third of the time. */
export function fillNormals(values: Float64Array, bits: SeededBits): void {
  const { state } = bits;
  // xoshiro128** once more, its state in the loop's own variables.
  let [a, b, c, d] = [state[0]!, state[1]!, state[2]!, state[3]!];
  for (let i = 0; i < values.length; i += 1) {
    const product = Math.imul(b, 5);
    const word = Math.imul((product << 7) | (product >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    const layer = word & 127;
    const x = ((word >> 8) + 0.5) * steps[layer]!;
    if (Math.abs(x) < edges[layer + 1]!) {
      values[i] = x;
      continue;
    }
    state[0] = a;
    state[1] = b;
    state[2] = c;
    state[3] = d;
    values[i] = normalFrom(word, bits);
    a = state[0]!;
    b = state[1]!;
    c = state[2]!;
    d = state[3]!;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

/**
 * A gamma value with scale 1, by Marsaglia & Tsang, ACM TOMS 26(3), 2000.
 *
 * @param shape above 0; below 1 it is raised by one and scaled back with a uniform, as they advise
 */
export function gamma(shape: number, bits: Bits): number {
  if (shape < 1) return gamma(shape + 1, bits) * uniform(bits) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = standardNormal(bits);
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    if (Math.log(uniform(bits)) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
