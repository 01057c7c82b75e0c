import { type Facts, factsOf } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import { rememberLast } from '../remember.ts';
import type { Route } from '../route/route.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { PlanInput } from './input.ts';
import { type NetworkReading, readNetwork } from './network/network.ts';
import { withProductForms } from './network/product-forms.ts';
import { withSaturatedForms } from './network/saturated-forms.ts';
import { bottlesByMaterial } from './stock/route-stock.ts';
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
 * part of what comes back, never thrown. The same input is read once, however many ask: the plan, its cautions, its
 * bench numbers.
 */
export const setUp = rememberLast((given: PlanInput): SetUp => {
  const { reference, ask } = given;
  const { route, facts } = readRoute(given.route, reference);
  const input = { ...given, route };
  const wanted = ask.draws.map((draw) => draw.material);
  return {
    input,
    facts,
    bottles: bottlesByMaterial(input),
    reading: readWants(input, facts),
    network: networkOf(route, facts, reference, wanted, ask.leaveOut ?? NO_STEP),
  };
});

/** What depends on the route and the tables alone: an edit of a draw or a yield does not read it anew. */
const readRoute = rememberLast((given: Route, reference: Reference) => {
  const facts = new Map(Object.entries(given.materials).map(([key, material]) => [key, factsOf(material, reference)]));
  return { route: withSaturatedForms(withProductForms(given), facts, reference), facts };
});

/** Which materials are drawn matters to it, and not how much of them. */
const networkOf = rememberLast(
  (
    route: Route,
    facts: SetUp['facts'],
    reference: Reference,
    wanted: readonly string[],
    leftOut: readonly string[],
  ): NetworkReading => readNetwork(route, new Set(wanted), new Set(leftOut), facts, reference),
);

const NO_STEP: readonly string[] = [];
