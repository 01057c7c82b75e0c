/** Gaussian elimination with partial pivoting; null where the matrix is singular. */
export function solveLinear(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const size = right.length;
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let i = column + 1; i < size; i += 1) if (Math.abs(at(rows, i, column)) > Math.abs(at(rows, pivot, column))) pivot = i;
    if (Math.abs(at(rows, pivot, column)) < 1e-300) return null;
    [rows[column], rows[pivot]] = [rows[pivot] as number[], rows[column] as number[]];
    for (let i = column + 1; i < size; i += 1) {
      const factor = at(rows, i, column) / at(rows, column, column);
      if (factor === 0) continue;
      for (let j = column; j <= size; j += 1) (rows[i] as number[])[j] = at(rows, i, j) - factor * at(rows, column, j);
    }
  }
  const x = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = at(rows, i, size);
    for (let j = i + 1; j < size; j += 1) sum -= at(rows, i, j) * (x[j] ?? 0);
    x[i] = sum / at(rows, i, i);
  }
  return x;
}

function at(rows: readonly (readonly number[])[], i: number, j: number): number {
  return rows[i]?.[j] ?? 0;
}
