import { type Edited, checked, freeKey, refused, withStep } from './edited.ts';
import { withoutLeftOver } from './edit-materials.ts';
import { type Operation, type Route, STAGES, type Stage, type Step } from './route.ts';

/** A name of an operation that the step has not used: "charge-4". */
export function freeOperation(step: Step, kind: Operation['do']): string {
  return freeKey(
    kind,
    step.operations.map((one) => one.id),
  );
}

/** Puts an operation into a step: behind `after`, else behind the last one of its own or an earlier stage. */
export function placed(step: Step, operation: Operation, after: string | null = null): Step {
  const behind = step.operations.findIndex((one) => one.id === after);
  const stage = STAGES.indexOf(operation.stage);
  const last = step.operations.findLastIndex((one) => STAGES.indexOf(one.stage) <= stage);
  const at = (behind >= 0 ? behind : last) + 1;
  return { ...step, operations: [...step.operations.slice(0, at), operation, ...step.operations.slice(at)] };
}

/** A new hold or removal in a step, with the least a file needs of it; its fields are filled in afterwards. */
export function addOperation(
  route: Route,
  stepId: string,
  operation: { readonly do: 'hold'; readonly until: string } | { readonly do: 'removal'; readonly takes: string },
  stage: Stage,
  after: string | null = null,
): Edited {
  return checked(
    withStep(route, stepId, (step) => {
      const id = freeOperation(step, operation.do);
      const made: Operation =
        operation.do === 'hold'
          ? { do: 'hold', id, stage, until: operation.until }
          : { do: 'removal', id, stage, how: 'filter', takes: [{ what: operation.takes, percent: 100 }] };
      return placed(step, made, after);
    }),
  );
}

/** Takes an operation out; materials that only it named go with it. The charge of the basis stays. */
export function removeOperation(route: Route, stepId: string, id: string): Edited {
  const after = withStep(route, stepId, (step) => ({ ...step, operations: step.operations.filter((one) => one.id !== id) }));
  return checked(withoutLeftOver(route, after));
}

/** The same operation once more, straight behind the first; a second charge of the basis becomes one of 1 equivalent. */
export function duplicateOperation(route: Route, stepId: string, id: string): Edited {
  return checked(
    withStep(route, stepId, (step) => {
      const found = step.operations.find((one) => one.id === id);
      if (!found) return step;
      const copy = { ...found, id: freeOperation(step, found.do) };
      const basis = copy.do === 'charge' && copy.rule.kind === 'basis';
      return placed(step, basis ? { ...copy, rule: { kind: 'equivalents', equivalents: 1 } } : copy, id);
    }),
  );
}

/**
 * Moves an operation one place up or down. Where the neighbour belongs to another stage the operation takes that stage
 * first, and passes it with the next move.
 * @param by −1 earlier, 1 later.
 */
export function moveOperation(route: Route, stepId: string, id: string, by: -1 | 1): Edited {
  return checked(withStep(route, stepId, (step) => ({ ...step, operations: moved(step.operations, id, by) })));
}

/** Puts an operation where another of the step stands, in the stage of that one; the others close up. */
export function dropOperation(route: Route, stepId: string, id: string, target: string): Edited {
  return checked(
    withStep(route, stepId, (step) => {
      const from = step.operations.findIndex((one) => one.id === id);
      const to = step.operations.findIndex((one) => one.id === target);
      const own = step.operations[from];
      const there = step.operations[to];
      if (!own || !there || from === to) return step;
      const list = step.operations.filter((one) => one.id !== id);
      list.splice(to, 0, { ...own, stage: there.stage });
      return { ...step, operations: list };
    }),
  );
}

function moved(operations: readonly Operation[], id: string, by: -1 | 1): Operation[] {
  const at = operations.findIndex((one) => one.id === id);
  const own = operations[at];
  const next = operations[at + by];
  const list = [...operations];
  if (!own) return list;
  const stage = next ? next.stage : STAGES[STAGES.indexOf(own.stage) + by];
  if (stage === undefined) return list;
  if (stage !== own.stage) {
    list[at] = { ...own, stage: nearerStage(own.stage, stage) };
    return list;
  }
  if (!next) return list;
  list[at] = next;
  list[at + by] = own;
  return list;
}

/** The stage next to `from` on the way to `to`. */
function nearerStage(from: Stage, to: Stage): Stage {
  const at = STAGES.indexOf(from);
  return STAGES[at + Math.sign(STAGES.indexOf(to) - at)] ?? to;
}

/** Puts an operation into another stage: behind the last one of that stage or before it. */
export function restaged(step: Step, id: string, stage: Stage): Step {
  const found = step.operations.find((one) => one.id === id);
  if (!found || found.stage === stage) return step;
  return placed({ ...step, operations: step.operations.filter((one) => one.id !== id) }, { ...found, stage });
}

/** One operation as it is now to be. */
export function changeOperation(route: Route, stepId: string, operation: Operation): Edited {
  const step = route.steps.find((one) => one.id === stepId);
  const old = step?.operations.find((one) => one.id === operation.id);
  if (!step || !old) return refused(`this operation is not among those of the step any more`);
  const after = withStep(route, stepId, (one) => {
    const changed = { ...one, operations: one.operations.map((each) => (each.id === operation.id ? operation : each)) };
    if (old.stage === operation.stage) return changed;
    return restaged(
      {
        ...changed,
        operations: changed.operations.map((each) => (each.id === operation.id ? { ...each, stage: old.stage } : each)),
      },
      operation.id,
      operation.stage,
    );
  });
  return checked(withoutLeftOver(route, after));
}
