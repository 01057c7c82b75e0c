/** ms of the processor's time that a work took: a busy machine makes it no longer. */
export async function worked(work: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
