import { factsOf } from '../matter/facts.ts';
import { publishedStep } from '../procedure/published.ts';
import { unreadPrints } from '../procedure/unread-prints.ts';
import type { Reference } from '../reference.ts';
import type { Route } from '../route/route.ts';
import { sentence } from './sentences.ts';
import { unreadPrintText } from './unread-print-words.ts';

/** What does not agree in the amounts a route's procedures print, step by step, as plain text; empty where all agrees. */
export function publishedText(route: Route, reference: Reference): string {
  const facts = new Map(Object.entries(route.materials).map(([key, material]) => [key, factsOf(material, reference)]));
  const lines = route.steps.flatMap((step) => {
    const { notices } = publishedStep(step, { facts, reference });
    return notices.map((notice) => `  ${step.title}: ${sentence(notice)}`);
  });
  lines.unshift(...unreadPrints(route).map((one) => `  ${unreadPrintText(one)}`));
  return lines.length === 0 ? '' : ['As published', ...lines].join('\n');
}
