import type { Facts } from '../matter/facts.ts';
import { parseFormula } from '../matter/formula.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';

/** What a material is for the purpose of keeping things apart. */
export interface Nature {
  /** Groups of the reactivity table, e.g. "oxidising acid". */
  readonly groups: readonly string[];
  /** Carbon and hydrogen in the formula, and no hydrogen carbonate: burns, reduces, and must not meet a strong oxidiser unasked. */
  readonly organic: boolean;
  readonly water: boolean;
  readonly ammonia: boolean;
}

const WATER = '7732-18-5';

/** A material's nature from the reactivity table and its formula; an unknown formula counts as not organic, not safe. */
export const natureOf: (facts: Facts, reference: Reference) => Nature = remember((facts, reference) => {
  const groups = facts.cas === null ? [] : (reference.reactivity.get(facts.cas) ?? []);
  const formula = facts.formula === null ? null : parseFormula(facts.formula, reference);
  const carbon = formula?.ok === true && formula.atoms.has('C') && formula.atoms.has('H');
  const organic = carbon && !groups.includes('carbonate') && !isHydrogenCarbonate(formula.atoms);
  return {
    groups,
    organic,
    water: facts.cas === WATER || facts.formula === 'H2O',
    ammonia: facts.formula === 'NH3' || facts.formula === 'H3N',
  };
});

/** The hydrogen carbonate of a metal: carbon and hydrogen, and nothing that burns. */
function isHydrogenCarbonate(atoms: ReadonlyMap<string, number>): boolean {
  const others = [...atoms.keys()].filter((symbol) => symbol !== 'C' && symbol !== 'H' && symbol !== 'O');
  const metals = others.length > 0 && others.every((symbol) => METALS.has(symbol));
  return metals && atoms.get('O') === 3 * (atoms.get('C') ?? 0) && atoms.get('H') === atoms.get('C');
}

const METALS = new Set(['Li', 'Na', 'K', 'Rb', 'Cs', 'Mg', 'Ca', 'Sr', 'Ba']);

/** Gives oxygen or chlorine to what can burn: oxidisers, oxidising acids, hypochlorites. */
export function isOxidiser(nature: Nature): boolean {
  return nature.groups.some((group) => group === 'oxidiser' || group === 'oxidising acid' || group === 'hypochlorite');
}

/** A strong acid, oxidising or not. */
export function isStrongAcid(nature: Nature): boolean {
  return nature.groups.some((group) => group === 'strong acid' || group === 'oxidising acid');
}

/** A strong base of the reactivity table. */
export function isStrongBase(nature: Nature): boolean {
  return nature.groups.includes('strong base');
}
