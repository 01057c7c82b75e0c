import type { ParseProblem } from '../quantity/parse.ts';
import type { Route, Step } from '../route/route.ts';
import { toldApart } from '../route/told-apart.ts';
import { readPrinted } from './read-printed.ts';
import { readPrintedProduct, readPrintedYield } from './read-product.ts';
import { chargesOf } from './step-charges.ts';

/** A printed text of a step that cannot be read, with its place in the text. */
export interface UnreadPrint {
  readonly step: string;
  readonly title: string;
  /** The charge it belongs to, else the product or the yield. */
  readonly of: { readonly operation: string; readonly name: string } | 'product' | 'yield';
  readonly text: string;
  readonly problem: ParseProblem;
}

/**
 * Printed amounts and yields of a route that cannot be read, as a file may bring them. The ratios beside them stand, so
 * that such a route is taken in and plans as before; where the print is wrong is said, and the text is kept.
 */
export function unreadPrints(route: Route): readonly UnreadPrint[] {
  return route.steps.flatMap((step) => [...chargePrints(step, route), ...productPrints(step)]);
}

function chargePrints(step: Step, route: Route): readonly UnreadPrint[] {
  return chargesOf(step).flatMap((charge): readonly UnreadPrint[] => {
    const of = { operation: charge.id, name: toldApart(charge, step, route) };
    return charge.printed === undefined ? [] : unread(step, of, charge.printed, readPrinted(charge.printed));
  });
}

function productPrints(step: Step): readonly UnreadPrint[] {
  const { product, yield: percent } = step.printed ?? {};
  return [
    ...(product === undefined ? [] : unread(step, 'product', product, readPrintedProduct(product))),
    ...(percent === undefined ? [] : unread(step, 'yield', percent, readPrintedYield(percent))),
  ];
}

function unread(
  { id, title }: Step,
  of: UnreadPrint['of'],
  text: string,
  read: { readonly ok: true } | ParseProblem,
): readonly UnreadPrint[] {
  return read.ok || text.trim() === '' ? [] : [{ step: id, title, of, text, problem: read }];
}
