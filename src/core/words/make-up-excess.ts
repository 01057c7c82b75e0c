/**
 * How much more is made up than is charged.
 * @param percent 0 or more; below half a percent it is as good as nothing.
 */
export function makeUpExcess(percent: number): string {
  return percent < 0.5
    ? 'just what is charged: the bottle holds no more, so lose nothing'
    : `${Number(percent.toPrecision(2))} % more than is charged, for what stays in the glass`;
}
