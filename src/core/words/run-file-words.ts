/** What is said of an exported run record that is read again. */
export const runFileWords = {
  broken: (entry: number) =>
    `this record was changed after it was written, ${entry === 0 ? 'at its start' : `at entry ${entry}`}: it is not read`,
} as const;
