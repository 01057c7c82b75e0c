import { factsOf } from '../matter/facts.ts';
import { publishedStep } from '../procedure/published.ts';
import type { Reference } from '../reference.ts';
import type { Route } from '../route/route.ts';
import { sentence } from './sentences.ts';

/** What does not agree in the amounts a route's procedures print, step by step, as plain text; empty where all agrees. */
export function publishedText(route: Route, reference: Reference): string {
  const facts = new Map(Object.entries(route.materials).map(([key, material]) => [key, factsOf(material, reference)]));
  const lines = route.steps.flatMap((step) => {
    const { notices, unreadable } = publishedStep(step, { facts, reference });
    return [
      ...[...unreadable].map(([operation, problem]) => `  ${step.title}, ${operation}: cannot be read, ${problem.words}`),
      ...notices.map((notice) => `  ${step.title}: ${sentence(notice)}`),
    ];
  });
  return lines.length === 0 ? '' : ['As published', ...lines].join('\n');
}
