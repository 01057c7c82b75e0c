/**
 * Remembers what a pure function of two values gave, for as long as both live. The answer depends on nothing else,
 * so remembering changes how fast it comes and nothing more; a plan asks for the same densities at every keystroke.
 */
export function remember<A extends WeakKey, B extends WeakKey, T>(work: (a: A, b: B) => T): (a: A, b: B) => T {
  const known = new WeakMap<A, WeakMap<B, T>>();
  return (a, b) => {
    let inner = known.get(a);
    if (!inner) known.set(a, (inner = new WeakMap()));
    let found = inner.get(b);
    if (found === undefined) inner.set(b, (found = work(a, b)));
    return found;
  };
}
