import type { Charge } from '../../core/route/route.ts';
import { planWords } from '../../core/words/plan-words.ts';

/** What a procedure itself says must be known before an operation: its caution, and its limit with what to do. */
export function ownWarnings(caution: string | undefined, limit: Charge['limit'] | null): readonly string[] {
  const said = limit ? [planWords.step.limit(limit.celsius, limit.side ?? 'above', limit.action)] : [];
  return caution ? [caution, ...said] : said;
}
