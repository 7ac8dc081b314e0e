/** Inner product of two vectors of one length. Four sums side by side: a single one waits for each addition before the next. */
export function dot(a: Float64Array, b: Float64Array): number {
  let [first, second, third, fourth] = [0, 0, 0, 0];
  const whole = a.length & ~3;
  for (let i = 0; i < whole; i += 4) {
    first += a[i]! * b[i]!;
    second += a[i + 1]! * b[i + 1]!;
    third += a[i + 2]! * b[i + 2]!;
    fourth += a[i + 3]! * b[i + 3]!;
  }
  for (let i = whole; i < a.length; i += 1) first += a[i]! * b[i]!;
  return first + second + (third + fourth);
}
