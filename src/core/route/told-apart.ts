import { called } from './compare-routes.ts';
import type { Operation, Route, Step } from './route.ts';

/**
 * What an operation is called among those of its step: by its own words, and from the second of the same on with a number,
 * so that two charges of water are two names: "water", "water (2)".
 */
export function toldApart(operation: Operation, step: Step, route: Route): string {
  const name = called(operation, route);
  const same = step.operations.filter((one) => called(one, route) === name);
  const at = same.findIndex((one) => one.id === operation.id);
  return at > 0 ? `${name} (${at + 1})` : name;
}
