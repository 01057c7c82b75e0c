import type { StepYield } from '../../../core/route/route.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { TypedField } from '../../parts/typed-field.tsx';
import { keepLimits } from './chance-edits.ts';
import { planField, setYield, yieldOf } from './edits.ts';
import { readYield, sameYield, stepYield, withoutSign, writeYield } from './yield-text.ts';

/** A step's yield, editable where it stands. */
export function YieldField({ step, title }: { readonly step: string; readonly title: string }) {
  return (
    <span class="yield">
      <TypedField<StepYield>
        label={planWords.yield.label(title)}
        value={yieldOf(step)}
        read={readYield}
        write={writeYield}
        same={sameYield}
        step={stepYield}
        stands={(value) => planWords.stillPlannedWith(`${withoutSign(writeYield(value))} %`)}
        onEdit={(value) => setYield(step, title, keepLimits(value, yieldOf(step)))}
        {...planField({ step })}
        face={withoutSign}
        size="small"
      />
      <span class="yield-unit">
        %<span class="yield-word"> {planWords.yield.word}</span>
      </span>
    </span>
  );
}
