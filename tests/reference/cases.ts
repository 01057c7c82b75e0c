import cases from './cases.json' with { type: 'json' };

/** One check case from an outside source; see cases.json for the source of each. */
export interface ReferenceCase {
  readonly id: string;
  readonly topic: string;
  readonly title: string;
  readonly source: string;
  // Each topic has inputs of its own shape; the test of the topic reads them.
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly outputs: readonly CaseOutput[];
}

interface CaseOutput {
  readonly name: string;
  readonly value: number | string | boolean;
  readonly tolAbs: number;
  readonly recomputed?: number | string;
  /** As the source prints it; null where it does not. */
  readonly printed?: string | null;
}

const all = cases as unknown as readonly ReferenceCase[];

export function casesOf(topic: string): readonly ReferenceCase[] {
  return all.filter((one) => one.topic === topic);
}

export function caseById(id: string): ReferenceCase {
  const found = all.find((one) => one.id === id);
  if (!found) throw new Error(`there is no case ${id}`);
  return found;
}

/** The expected value of one output with the tolerance its source allows. */
export function expected(one: ReferenceCase, name: string): { readonly value: number; readonly within: number } {
  const found = one.outputs.find((output) => output.name === name);
  if (!found || typeof found.value !== 'number') throw new Error(`${one.id} has no number called ${name}`);
  return { value: found.value, within: found.tolAbs };
}
