/**
 * Working order of steps: what is made first comes first; steps that feed each other in a loop stand together.
 * Tarjan's strongly connected components, then makers before users, the order of the file deciding ties.
 * @param feeds feeds(i) lists the steps that use what step i makes.
 */
export function workingOrder(count: number, feeds: (i: number) => readonly number[]): readonly (readonly number[])[] {
  const groups = components(count, feeds);
  const groupOf = new Map<number, number>();
  groups.forEach((group, index) => group.forEach((step) => groupOf.set(step, index)));
  const waits = groups.map(() => new Set<number>());
  groups.forEach((group, index) => {
    for (const step of group)
      for (const user of feeds(step)) if (groupOf.get(user) !== index) waits[groupOf.get(user) ?? 0]?.add(index);
  });
  const order: (readonly number[])[] = [];
  const placed = new Set<number>();
  while (order.length < groups.length) {
    const ready = groups.findIndex(
      (_, index) => !placed.has(index) && [...(waits[index] ?? [])].every((maker) => placed.has(maker)),
    );
    placed.add(ready);
    order.push(groups[ready] ?? []);
  }
  return order;
}

function components(count: number, feeds: (i: number) => readonly number[]): readonly (readonly number[])[] {
  const index = new Array<number>(count).fill(-1);
  const low = new Array<number>(count).fill(0);
  const stack: number[] = [];
  const onStack = new Set<number>();
  const found: number[][] = [];
  let next = 0;
  const visit = (i: number): void => {
    index[i] = low[i] = next;
    next += 1;
    stack.push(i);
    onStack.add(i);
    for (const j of feeds(i)) {
      if (index[j] === -1) visit(j);
      if (onStack.has(j)) low[i] = Math.min(low[i] ?? 0, low[j] ?? 0);
    }
    if (low[i] !== index[i]) return;
    const group: number[] = [];
    for (let j = stack.pop(); j !== undefined; j = j === i ? undefined : stack.pop()) {
      onStack.delete(j);
      group.push(j);
    }
    found.push(group.sort((a, b) => a - b));
  };
  for (let i = 0; i < count; i += 1) if (index[i] === -1) visit(i);
  return found.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
}
