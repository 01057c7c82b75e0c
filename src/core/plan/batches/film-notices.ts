import type { Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';

/** A loss in a flask is hardly known more exactly than this part of it. Common practice, no source. */
const KNOWN_TO = 0.1;

/**
 * Says where more of what a batch makes stays behind in it than comes out; and where so little is to come out that
 * nobody knows the loss so exactly.
 * @param out g of product that comes out of all batches; null or not finite where its mass is not known: then nothing is
 * said. @param batches how many there are.
 */
export function filmNotices(step: Step, out: number | null, batches: number): readonly Notice[] {
  const lost = step.lossPerBatch?.grams ?? 0;
  if (lost === 0 || out === null || !Number.isFinite(out) || batches < 1) return [];
  const each = out / batches;
  const made = each + lost;
  if (lost <= made / 2) return [];
  const values = { made, lost, percent: (100 * lost) / made, out: each, least: KNOWN_TO * lost };
  const code = each < KNOWN_TO * lost ? 'film not known so well' : 'film takes most';
  return [{ level: 'caution', code, values, at: { step: step.id } }];
}
