import { signal } from '@preact/signals';
import type { PaperContext } from '../../core/paper/context.ts';
import type { PlanResult } from '../../core/plan/result.ts';
import { sentence } from '../../core/words/sentences.ts';
import { decimalMark } from '../parts/locale.ts';
import { benchSections } from './bench-numbers.ts';
import { cautionsOfStep } from './step-cautions.ts';
import { reference, settings } from './workbook.ts';

/** Whether a second person's initials are wanted, on papers and while weighing. */
export const secondCheck = signal(false);

/** What the papers of a plan are built from; null until the tables and settings are read. */
export function paperContext(result: PlanResult): PaperContext | null {
  if (!reference.value || !settings.value) return null;
  return {
    result,
    size: settings.value.paper,
    mark: decimalMark,
    settings: settings.value,
    secondCheck: secondCheck.value,
    say: sentence,
    statements: reference.value.statement,
    bench: benchSections,
    cautions: cautionsOfStep,
  };
}
