/** Entries by key, each group and the keys in the order of the list. */
export function grouped<T>(entries: readonly T[], key: (entry: T) => string): Map<string, T[]> {
  const map = new Map<string, T[]>();
  for (const entry of entries) {
    const group = map.get(key(entry));
    if (group) group.push(entry);
    else map.set(key(entry), [entry]);
  }
  return map;
}
