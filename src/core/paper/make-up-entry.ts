import type { MakeUp } from '../plan/make-up-result.ts';
import { TOO_LITTLE, tooLittleIn } from '../shelf/make-up-weighed.ts';
import type { Notice } from '../words/notice.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, share } from './amounts.ts';
import { bottleWords, makeUpLabel } from './charge-sources.ts';
import { nameOf, type PaperContext, warningsOf } from './context.ts';
import type { MakeUpEntry } from './sheet.ts';

/**
 * A make-up as it is done: what dilutes goes in first, what is stronger is stirred into it.
 * @param factor the part of the plan's whole make-up that is wanted here, 0 … 1.
 */
export function makeUpEntry(makeUp: MakeUp, factor: number, uses: string, context: PaperContext): MakeUpEntry {
  const { result, mark, say } = context;
  const of = (figure: Parameters<typeof share>[0]) => amountText(share(figure, factor), mark);
  const label = makeUpLabel(result, makeUp.id);
  const millilitres = makeUp.millilitres ? ` (${of(makeUp.millilitres)})` : '';
  const solvent = makeUp.form.kind === 'solution' && makeUp.form.solvent !== undefined ? makeUp.form.solvent : words.water;
  return {
    id: makeUp.id,
    label,
    title: `${nameOf(result, makeUp.material)} ${makeUp.formWords}`,
    before: warningsOf(beforeIt(makeUp, factor, context), say),
    parts: [
      { material: solvent, source: '', target: of(makeUp.waterGrams), or: '' },
      ...makeUp.parts.map(({ from, fromWords, takeGrams, takeMillilitres }) => ({
        material: `${nameOf(result, makeUp.material)} ${fromWords}`,
        source: bottleWords(from),
        target: of(takeGrams),
        or: takeMillilitres ? words.orByMass(of(takeMillilitres)) : '',
      })),
    ],
    gives: words.makeUpGives(`${of(makeUp.grams)}${millilitres}`, makeUp.excessPercent),
    uses,
  };
}

/** What must be known before it; what is too little to weigh, for the part of it that is made here. */
function beforeIt(makeUp: MakeUp, factor: number, { result, settings }: PaperContext): readonly Notice[] {
  const known = makeUp.before.filter((notice) => notice.code !== TOO_LITTLE);
  return [...known, ...tooLittleIn(makeUp, nameOf(result, makeUp.material), factor, settings)];
}
