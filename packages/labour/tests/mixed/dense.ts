/** Dense linear algebra written for nothing but being plainly right: what the sparse code is held against. */
export type Matrix = number[][];

export const zeros = (rows: number, columns: number): Matrix =>
  Array.from({ length: rows }, () => Array.from({ length: columns }, () => 0));

export function times(a: Matrix, b: Matrix): Matrix {
  return a.map((row) =>
    b[0]!.map((_, j) => row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0)),
  );
}

export const transposed = (a: Matrix): Matrix => a[0]!.map((_, j) => a.map((row) => row[j]!));

/** Gauss–Jordan with row exchanges: the inverse, and ln |det|. */
export function inverted(a: Matrix): { inverse: Matrix; logDet: number } {
  const n = a.length;
  const work = a.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  let logDet = 0;
  for (let j = 0; j < n; j += 1) {
    let best = j;
    for (let i = j + 1; i < n; i += 1) {
      if (Math.abs(work[i]![j]!) > Math.abs(work[best]![j]!)) best = i;
    }
    [work[j], work[best]] = [work[best]!, work[j]!];
    const pivot = work[j]![j]!;
    logDet += Math.log(Math.abs(pivot));
    work[j] = work[j]!.map((value) => value / pivot);
    for (let i = 0; i < n; i += 1) {
      const share = work[i]![j]!;
      if (i === j || share === 0) continue;
      work[i] = work[i]!.map((value, k) => value - share * work[j]![k]!);
    }
  }
  return { inverse: work.map((row) => row.slice(n)), logDet };
}
