/** X by rows, without its zeros: most columns say nothing of most rows. Sums run over the rows in their order. */
export class SparseColumns {
  readonly columns: number;
  /** Entries of row r: from start[r] up to start[r + 1], columns ascending. */
  readonly start: Int32Array;
  readonly column: Int32Array;
  readonly value: Float64Array;

  constructor(x: readonly Float64Array[], rows: number) {
    this.columns = x.length;
    this.start = new Int32Array(rows + 1);
    for (const values of x) {
      for (let row = 0; row < rows; row += 1) if (values[row] !== 0) this.start[row + 1]! += 1;
    }
    for (let row = 0; row < rows; row += 1) this.start[row + 1]! += this.start[row]!;
    const next = this.start.slice(0, rows);
    this.column = new Int32Array(this.start[rows]!);
    this.value = new Float64Array(this.start[rows]!);
    for (const [index, values] of x.entries()) {
      for (let row = 0; row < rows; row += 1) {
        if (values[row] === 0) continue;
        this.column[next[row]!] = index;
        this.value[next[row]!] = values[row]!;
        next[row]! += 1;
      }
    }
  }

  /** out ← out − X·beta. */
  subtractTimes(beta: Float64Array, out: Float64Array): void {
    for (let row = 0; row < out.length; row += 1) {
      let value = out[row]!;
      for (let k = this.start[row]!; k < this.start[row + 1]!; k += 1) {
        value -= beta[this.column[k]!]! * this.value[k]!;
      }
      out[row] = value;
    }
  }

  /** Xᵀv. */
  transposeTimes(v: Float64Array): Float64Array {
    const out = new Float64Array(this.columns);
    for (let row = 0; row < v.length; row += 1) {
      for (let k = this.start[row]!; k < this.start[row + 1]!; k += 1) {
        out[this.column[k]!]! += this.value[k]! * v[row]!;
      }
    }
    return out;
  }

  /** XᵀWX, row-major. */
  crossProducts(weights: Float64Array | undefined): Float64Array {
    const p = this.columns;
    const out = new Float64Array(p * p);
    for (let row = 0; row + 1 < this.start.length; row += 1) {
      const weight = weights === undefined ? 1 : weights[row]!;
      for (let k = this.start[row]!; k < this.start[row + 1]!; k += 1) {
        const weighted = this.value[k]! * weight;
        const to = this.column[k]! * p;
        for (let l = this.start[row]!; l <= k; l += 1) {
          out[to + this.column[l]!]! += weighted * this.value[l]!;
        }
      }
    }
    for (let i = 0; i < p; i += 1) for (let j = 0; j < i; j += 1) out[j * p + i] = out[i * p + j]!;
    return out;
  }
}
