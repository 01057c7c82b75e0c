import { type Facts, factsOf } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import type { Route } from '../route/route.ts';
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
 * part of what comes back, never thrown. The same input is read once, however many ask: the plan, its cautions, its
 * bench numbers.
 */
export function setUp(given: PlanInput): SetUp {
  const known = readBefore.get(given) ?? readInput(given);
  readBefore.set(given, known);
  return known;
}

const readBefore = new WeakMap<PlanInput, SetUp>();
/** What depends on the route and the tables alone: an edit of a draw or a yield does not read it anew. */
const routesBefore = new WeakMap<
  Route,
  { readonly reference: Reference; readonly route: Route; readonly facts: SetUp['facts'] }
>();

function readInput(given: PlanInput): SetUp {
  const { route, facts } = readRouteOf(given);
  const input = { ...given, route };
  const wanted = new Set(input.ask.draws.map((draw) => draw.material));
  return {
    input,
    facts,
    bottles: bottlesByMaterial(input),
    reading: readWants(input, facts),
    network: readNetwork(input.route, wanted, new Set(input.ask.leaveOut ?? []), facts, input.reference),
  };
}

function readRouteOf({ route: given, reference }: PlanInput): { readonly route: Route; readonly facts: SetUp['facts'] } {
  const known = routesBefore.get(given);
  if (known?.reference === reference) return known;
  const route = withProductForms(given);
  const facts = new Map(Object.entries(route.materials).map(([key, material]) => [key, factsOf(material, reference)]));
  const read = { reference, route, facts };
  routesBefore.set(given, read);
  return read;
}
