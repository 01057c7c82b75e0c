import { type Facts, factsOf } from '../matter/facts.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { PlanInput } from './input.ts';
import { type NetworkReading, readNetwork } from './network.ts';
import { withProductForms } from './product-forms.ts';
import { bottlesByMaterial } from './route-stock.ts';
import { type Reading, readWants } from './wants.ts';

/** What every question about a route begins with: its materials' facts, the bottles that hold them, draws, network. */
export interface SetUp {
  readonly input: PlanInput;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly bottles: ReadonlyMap<string, readonly Bottle[]>;
  readonly reading: Reading;
  readonly network: NetworkReading;
}

/**
 * Reads a plan's input: facts and bottles by the route's key of a material, draws in moles, the network. Trouble is
 * part of what comes back, never thrown.
 */
export function setUp(given: PlanInput): SetUp {
  const input = { ...given, route: withProductForms(given.route) };
  const facts = new Map(
    Object.entries(input.route.materials).map(([key, material]) => [key, factsOf(material, input.reference)]),
  );
  const wanted = new Set(input.ask.draws.map((draw) => draw.material));
  return {
    input,
    facts,
    bottles: bottlesByMaterial(input),
    reading: readWants(input, facts),
    network: readNetwork(input.route, wanted, new Set(input.ask.leaveOut ?? []), facts, input.reference),
  };
}
