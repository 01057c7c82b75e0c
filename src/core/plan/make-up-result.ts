import type { Form } from '../matter/form.ts';
import type { Saturated } from '../matter/saturated.ts';
import type { Figure } from '../quantity/figure.ts';
import type { Notice } from '../words/notice.ts';
import type { BottleShare } from './result.ts';

/** A solution made from one stronger bottle or several: by mass, with the volume that results. */
export interface MakeUp {
  readonly id: string;
  readonly material: string;
  readonly form: Form;
  readonly formWords: string;
  /** What is made, the excess included. */
  readonly millilitres: Figure<'mL'> | null;
  readonly grams: Figure<'g'>;
  /** By how much that is more than the charges take, %: some stays in the glass. 0 where the bottles hold no more. */
  readonly excessPercent: number;
  /** Of a saturated solution, what the tables say of it: its parts hold the surplus too, beyond what dissolves. */
  readonly saturated?: Saturated;
  /** What it is made from, in the order it is used up; each stronger than what is made. At least one. */
  readonly parts: readonly MakeUpPart[];
  readonly waterGrams: Figure<'g'>;
  readonly before: readonly Notice[];
}

/** What a make-up takes of one bottle. */
export interface MakeUpPart {
  readonly from: BottleShare;
  readonly fromWords: string;
  readonly takeGrams: Figure<'g'>;
  readonly takeMillilitres: Figure<'mL'> | null;
  /** Hazard statements of that strength; null: no harmonised entry. */
  readonly hazards: readonly string[] | null;
}
