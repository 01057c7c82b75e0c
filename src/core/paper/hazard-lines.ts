import { severityOf, worstFirst } from '../bench/severity.ts';
import type { StepPlan } from '../plan/result.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, share } from './amounts.ts';
import { nameOf, type PaperContext } from './context.ts';
import type { WeighingSheet } from './sheet.ts';

/** Something that can be met at this sheet, with the statements of its strength; null: no harmonised entry. */
interface Met {
  readonly name: string;
  readonly hazards: readonly string[] | null;
  /** Of a stronger form: the name of what is charged; named itself only for what that does not say already. */
  readonly strongerOf?: string;
}

/**
 * Each hazard code of the sheet once, the worst first, with what it says and whose it is: of what is charged, of the
 * stronger solutions that are thinned first, and of everything the step makes.
 */
export function statementsOf(step: StepPlan, context: PaperContext): WeighingSheet['statements'] {
  const owners = new Map<string, string[]>();
  for (const { name, hazards, strongerOf } of metAt(step, context)) {
    for (const code of hazards ?? []) {
      const named = owners.get(code) ?? [];
      if (strongerOf === undefined || !named.includes(strongerOf)) owners.set(code, [...new Set([...named, name])]);
    }
  }
  return worstFirst([...owners.keys()]).map((code) => ({
    code,
    words: context.statements.get(code) ?? words.noSentence,
    of: (owners.get(code) ?? []).join(', '),
  }));
}

/** Names of what has no harmonised entry, in a sentence; empty where everything has one. */
export function unlistedOf(step: StepPlan, context: PaperContext): string {
  const names = metAt(step, context).flatMap(({ name, hazards }) => (hazards === null ? [name] : []));
  return names.length === 0 ? '' : words.unlisted([...new Set(names)].join(', '));
}

/** From here on a statement of a gas is left to the list: what is said with it is what kills, bursts or poisons. */
const SAID_WITH_GAS = 3;

/** The gases a step frees, one batch, each with the worst that is known of it. */
export function gasesOf(step: StepPlan, context: PaperContext): string[] {
  const { result, mark } = context;
  const part = 1 / step.batches.count;
  return step.gases.map((gas) => {
    const codes = step.formed.find((one) => one.material === gas.material)?.hazards ?? null;
    const worst = worstFirst(codes ?? []).filter((code) => severityOf(code) < SAID_WITH_GAS);
    const said = codes === null ? words.noEntrySentence : worst.map((code) => context.statements.get(code) ?? code).join(' ');
    const amounts = [amountText(share(gas.grams, part), mark), amountText(share(gas.litres, part), mark)].join(', ');
    return words.gas(nameOf(result, gas.material), amounts, said);
  });
}

function metAt(step: StepPlan, { result }: PaperContext): readonly Met[] {
  const charges = step.operations.filter((operation) => operation.kind === 'charge');
  const bought = charges.filter(({ supply }) => supply.kind !== 'utility');
  const charged = new Set(bought.map((charge) => charge.material));
  const madeUp = new Set(bought.flatMap(({ supply }) => (supply.kind === 'make up' ? [supply.makeUp] : [])));
  return [
    ...bought.map((charge) => ({ name: nameOf(result, charge.material), hazards: charge.hazards })),
    ...result.makeUps
      .filter((makeUp) => madeUp.has(makeUp.id))
      .flatMap(({ material, parts }) => {
        const strongerOf = nameOf(result, material);
        return parts.map(({ fromWords, hazards }) => ({ name: `${strongerOf} ${fromWords}`, hazards, strongerOf }));
      }),
    ...step.formed
      .filter((formed) => !charged.has(formed.material))
      .map((formed) => ({ name: words.formed(nameOf(result, formed.material)), hazards: formed.hazards })),
    ...step.freed.map((freed) => ({ name: words.freed(freed.material), hazards: freed.hazards })),
  ];
}
