import type { CascadeFlow, CascadeInput } from '../../src/core/cascade/input.ts';

const bought = (material: string) => ({ kind: 'bought', material }) as const;
const stock = (material: string) => ({ kind: 'stock', material }) as const;
const step = (id: string) => ({ kind: 'step', step: id }) as const;
const draw = (id: string) => ({ kind: 'draw', draw: id }) as const;
const flow = (
  from: CascadeFlow['from'],
  to: CascadeFlow['to'],
  material: string,
  size: number,
  recycle = false,
): CascadeFlow => ({ from, to, material, size, recycle, apart: recycle });

/** Four steps that fork, with stock of the intermediate and a kept sample; sizes in mmol ÷ path stoichiometry. */
export function forked(k = 1): CascadeInput {
  return {
    steps: [
      { id: 'coupling', number: 1, basis: 'aldehyde', product: 'ketol', also: [], theory: null },
      { id: 'oxidation', number: 2, basis: 'ketol', product: 'diketone', also: [], theory: null },
      { id: 'condensation', number: 3, basis: 'diketone', product: 'dienone', also: [], theory: null },
      { id: 'ring', number: 4, basis: 'diketone', product: 'quinoxaline', also: [], theory: null },
    ],
    draws: [
      { id: 'practical', material: 'dienone' },
      { id: 'kept', material: 'diketone' },
      { id: 'kits', material: 'quinoxaline' },
    ],
    flows: [
      flow(bought('aldehyde'), step('coupling'), 'aldehyde', 170 * k),
      flow(step('coupling'), step('oxidation'), 'ketol', 93.5 * k),
      flow(step('oxidation'), step('condensation'), 'diketone', 56 * k),
      flow(step('oxidation'), step('ring'), 'diketone', 20 * k),
      flow(step('oxidation'), draw('kept'), 'diketone', 10 * k),
      flow(stock('diketone'), step('ring'), 'diketone', 28 * k),
      flow(step('condensation'), draw('practical'), 'dienone', 52 * k),
      flow(step('ring'), draw('kits'), 'quinoxaline', 42 * k),
    ],
  };
}

/** Two branches that join, and a recovered reagent and basis that go back to an earlier step. */
export function recycled(): CascadeInput {
  return {
    steps: [
      { id: 'left', number: 1, basis: 'alcohol', product: 'bromide', also: [], theory: null },
      { id: 'right', number: 2, basis: 'phenol', product: 'phenoxide', also: [], theory: null },
      { id: 'join', number: 3, basis: 'phenoxide', product: 'ether', also: ['bromide'], theory: null },
    ],
    draws: [{ id: 'sale', material: 'ether' }],
    flows: [
      flow(bought('alcohol'), step('left'), 'alcohol', 12),
      flow(bought('phenol'), step('right'), 'phenol', 11),
      flow(step('right'), step('right'), 'phenol', 0.5, true),
      flow(step('join'), step('left'), 'hydrogen bromide', 40, true),
      flow(step('left'), step('join'), 'bromide', 10),
      flow(step('right'), step('join'), 'phenoxide', 10),
      flow(step('join'), draw('sale'), 'ether', 7),
      flow(step('join'), { kind: 'left over', material: 'ether' }, 'ether', 1),
    ],
  };
}

/** A chain of so many steps, each with this yield (fraction). */
export function chain(count: number, yieldFraction: number): CascadeInput {
  const steps = Array.from({ length: count }, (_, index) => ({
    id: `s${index + 1}`,
    number: index + 1,
    basis: `m${index}`,
    product: `m${index + 1}`,
    also: [],
    theory: null,
  }));
  const size = (index: number): number => yieldFraction ** -(count - index);
  return {
    steps,
    draws: [{ id: 'd', material: `m${count}` }],
    flows: [
      flow(bought('m0'), step('s1'), 'm0', size(0)),
      ...steps.slice(1).map((one, index) => flow(step(`s${index + 1}`), step(one.id), one.basis, size(index + 1))),
      flow(step(`s${count}`), draw('d'), `m${count}`, 1),
    ],
  };
}
