import type { Charge, Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import { onFilter } from './on-filter.ts';

/** "wash", "washed", "washing" as a word of its own in the note of a charge: what it is for. */
const WASH = /(?:^|[,;]\s*)wash(?:e[ds]|ings?)?\s*(?=$|[,;])/i;

/**
 * Charges that are called a wash where nothing was filtered off, separated or taken away before them in the step, and no
 * layers are parted after them: they wash nothing and stay in the vessel, which is said at their place.
 */
export function washNotices(step: Step, nameOf: (material: string) => string): readonly Notice[] {
  const washes = onFilter(step);
  return step.operations.flatMap((operation, index): readonly Notice[] => {
    if (operation.do !== 'charge' || !isCalledWash(operation) || washes.has(operation.id)) return [];
    if (step.operations.slice(0, index).some((one) => one.do === 'removal' && one.how !== 'vent')) return [];
    if (step.operations.slice(index + 1).some((one) => one.do === 'removal' && one.how === 'separate')) return [];
    const at = { step: step.id, operation: operation.id, material: operation.material };
    return [{ level: 'note', code: 'wash of nothing', values: { material: nameOf(operation.material) }, at }];
  });
}

function isCalledWash({ note }: Charge): boolean {
  return note !== undefined && WASH.test(note);
}
