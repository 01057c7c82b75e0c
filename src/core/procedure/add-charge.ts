import { acidityOf } from '../matter/acidity.ts';
import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import type { Reference } from '../reference.ts';
import { checked, type Edited, withStep } from '../route/edited.ts';
import { factsOfRoute, type MaterialChoice, withMaterial } from '../route/edit-materials.ts';
import { freeOperation, placed } from '../route/edit-operations.ts';
import type { Charge, ChargeRule, PlainRule, Route, Step } from '../route/route.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { sentence } from '../words/sentences.ts';
import type { ChargeLine } from './charge-line.ts';
import { withPrint } from './edit-print.ts';
import type { Known } from './printed-amount.ts';
import { publishedStep } from './published.ts';
import { type Printed, readPrinted } from './read-printed.ts';
import { chargesOf, inside, withRule } from './step-charges.ts';
import { weightPercentMeant } from './weight-percent.ts';

/** What a line says besides its material and amount. */
type Said = Pick<
  ChargeLine,
  | 'printed'
  | 'stage'
  | 'temperature'
  | 'overMinutes'
  | 'note'
  | 'named'
  | 'solvent'
  | 'normal'
  | 'onlyConcentration'
  | 'neutralises'
  | 'until'
>;

/** The route with the charge in it, and which operation it became. */
export type AddedCharge =
  | { readonly ok: true; readonly route: Route; readonly operation: string }
  | Extract<Edited, { ok: false }>;

/**
 * Adds a charge as one line of the procedure says it: the ratio follows from its print and that of the basis. A line of
 * the basis itself fills in the basis' own print, as long as it has none.
 * @param after the operation it stands behind; null for the end of its stage.
 */
export function addCharge(
  route: Route,
  stepId: string,
  choice: MaterialChoice,
  line: Said,
  reference: Reference,
  after: string | null = null,
): AddedCharge {
  const taken = withMaterial(route, choice);
  const known = { facts: factsOfRoute(taken.route, reference), reference };
  const step = taken.route.steps.find((one) => one.id === stepId);
  const facts = known.facts.get(taken.key);
  if (!step || !facts) return noCharge(words.name);
  if (line.normal !== undefined && !hasOneEquivalent(facts, reference)) return noCharge(words.normality(facts.name, line.normal));
  if (line.onlyConcentration && !isSolvent(facts)) return noCharge(words.amountOf(facts.name));
  const basis = chargesOf(step).find((one) => one.rule.kind === 'basis');
  const own = basis?.material === taken.key && basis.printed === undefined;
  if (own && line.until) return noCharge(words.untilBasis);
  const meant = weightPercentMeant(line.printed, facts, own, publishedStep(step, known).basis);
  if (!meant.ok) return noCharge(meant.words);
  const read = { ...line, printed: meant.printed };
  const said = line.normal === undefined ? read : withNote(read, words.normalAs(line.normal));
  if (said.neutralises && step.basis === taken.key) return noCharge(words.basisAmount);
  if (said.neutralises) return addNeutralising(taken.route, step, taken.key, { ...said, neutralises: said.neutralises }, after);
  const strength = namedStrength(said, facts, reference);
  if (!strength.ok) return noCharge(strength.words);
  const whose = whoseConcentration(said, facts);
  if (whose !== null) return noCharge(whose);
  const made = own && basis ? { step, id: basis.id } : withNew(step, { key: taken.key, said, facts, after, form: strength.form });
  const set = withStep(taken.route, stepId, () => withSaid(made.step, made.id, said, strength));
  const changed = set.steps.find((one) => one.id === stepId) ?? step;
  const first = withPrint(changed, made.id, said.printed, known);
  const printed = own ? first : byVolume(first, made.id, said.printed, known);
  const why = own ? whyNoBasis(printed, known) : whyNoRatio(printed, made.id, known);
  if (why !== null) return noCharge(why);
  const edited = checked(withStep(taken.route, stepId, () => printed));
  return edited.ok ? { ok: true, route: edited.route, operation: made.id } : edited;
}

/** Whether a mole gives or takes one proton, so that its normality is its molarity. */
function hasOneEquivalent(facts: Facts, reference: Reference): boolean {
  return acidityOf(facts, reference)?.pKa.length === 1;
}

/** A liquid that is charged as it is. */
function isSolvent(facts: Facts): boolean {
  return facts.state === 'liquid' && !facts.usuallyDissolved;
}

function withNote(said: Said, note: string): Said {
  return { ...said, note: said.note === null ? note : `${said.note}; ${note}` };
}

/**
 * "THF (20 mL, 0.5 M)": of a liquid that is charged as it is, a molarity beside a volume may be its own strength or that of
 * what is dissolved in it. Which of the two is a question, never a guess.
 */
function whoseConcentration({ printed: text, solvent }: Said, facts: Facts): string | null {
  const printed = readPrinted(text);
  const isLiquid = isSolvent(facts);
  if (!printed.ok || printed.strength?.basis !== 'mol/L' || solvent !== null || !isLiquid || !printed.millilitres) return null;
  return words.whoseConcentration(facts.name, printed.strength.value);
}

/** A charge whose amount follows from what is in the pot: it has no print. */
function addNeutralising(
  route: Route,
  step: Step,
  material: string,
  said: Said & Required<Pick<Said, 'neutralises'>>,
  after: string | null,
): AddedCharge {
  const id = freeOperation(step, 'charge');
  const behind = step.operations.find((one) => one.id === after) ?? null;
  const stage = said.stage ?? behind?.stage ?? 'quench';
  const { rule, form } = said.neutralises;
  const charge: Charge = { do: 'charge', id, stage, material, rule };
  const added = placed(step, charge, behind?.stage === stage ? after : null);
  const full = withSaid(added, id, { ...said, solvent: null }, { ok: true, form, note: null });
  const edited = checked(withStep(route, step.id, () => full));
  return edited.ok ? { ok: true, route: edited.route, operation: id } : edited;
}

function noCharge(said: string): AddedCharge {
  return { ok: false, problems: [{ at: '', words: said }] };
}

interface New {
  readonly key: string;
  readonly said: Said;
  readonly facts: Facts;
  readonly after: string | null;
  readonly form: Form | null;
}

function withNew(step: Step, { key, said, facts, after, form }: New): { readonly step: Step; readonly id: string } {
  const id = freeOperation(step, 'charge');
  const behind = step.operations.find((one) => one.id === after) ?? null;
  const stage = said.stage ?? behind?.stage ?? 'reaction';
  const printed = readPrinted(said.printed);
  const estimate = printed.ok
    ? firstRule(step, key, stage, facts, printed, form !== null)
    : { kind: 'equivalents' as const, equivalents: 1 };
  const rule = said.until ? { kind: 'until' as const, ...said.until, estimate } : estimate;
  const charge: Charge = { do: 'charge', id, stage, material: key, rule };
  return { step: placed(step, charge, behind?.stage === stage ? after : null), id };
}

/**
 * A reagent whose moles cannot be told from what is printed ("sat. NaHCO3 50 mL", "25 % w/w in methanol, 2.2 mL" of unknown
 * density) goes by mL per g, as it is printed; its moles stay unknown.
 */
function byVolume(step: Step, id: string, text: string, known: Known): Step {
  const printed = readPrinted(text);
  if (!printed.ok || !printed.millilitres || whyNoRatio(step, id, known) === null) return step;
  return withPrint(withRule(step, id, inside(ruleOf(step, id), { kind: 'volumes', millilitresPerGram: 1 })), id, text, known);
}

function ruleOf(step: Step, id: string): ChargeRule {
  return chargesOf(step).find((one) => one.id === id)?.rule ?? { kind: 'basis' };
}

/** What a line says besides the amount, put on its charge. */
function withSaid(step: Step, id: string, said: Said, strength: Named): Step {
  const note = [said.note, strength.note].filter((one) => one !== null).join('; ');
  // The print brings the strength; the solvent it stands in is kept from here.
  const dissolved = strength.form === null && /\b(?:solution|aqueous|aq)\b/i.test(said.note ?? '');
  const form: Form | null =
    said.solvent !== null ? { kind: 'unknown', solvent: said.solvent } : dissolved ? { kind: 'unknown' } : strength.form;
  return {
    ...step,
    operations: step.operations.map((one) => {
      if (one.do !== 'charge' || one.id !== id) return one;
      return {
        ...one,
        ...(form ? { form } : {}),
        ...(said.temperature ? { temperature: said.temperature } : {}),
        ...(said.overMinutes === null ? {} : { overMinutes: said.overMinutes }),
        ...(note === '' ? {} : { note }),
      };
    }),
  };
}

/**
 * The rule a new charge goes by; its ratio is worked out from the print. A reagent counts in moles; a solvent and what is
 * only measured by volume in mL per g; what has no molar mass, what only takes up colour or water, and a solid of the
 * work-up, by mass.
 */
function firstRule(
  step: Step,
  key: string,
  stage: Charge['stage'],
  facts: Facts,
  printed: Printed,
  dissolved: boolean,
): PlainRule {
  const reacts = step.equation.uses.some((term) => term.material === key);
  const early = stage === 'reaction' || stage === 'quench';
  const solution = dissolved || printed.strength !== undefined;
  const solvent =
    facts.utility || (facts.state === 'liquid' && printed.moles === undefined && printed.grams === undefined && !solution);
  const hasMoles = facts.molarMass !== null || printed.strength?.basis === 'mol/L';
  const aid = facts.aid && !reacts && printed.moles === undefined;
  const countsInMoles = hasMoles && !aid && (printed.moles !== undefined || reacts || (early && !solvent));
  if (countsInMoles) return { kind: 'equivalents', equivalents: 1 };
  const volume = printed.millilitres !== undefined && printed.grams === undefined;
  return volume ? { kind: 'volumes', millilitresPerGram: 1 } : { kind: 'mass ratio', gramsPerGram: 1 };
}

/** What the basis lacks: a print, or the formula that turns it into moles. */
function basisTrouble(step: Step, known: Known): string {
  const basis = chargesOf(step).find((one) => one.rule.kind === 'basis');
  const facts = basis && known.facts.get(basis.material);
  return basis?.printed !== undefined && facts && !facts.molarMass ? words.basisFormula(facts.name) : words.basisFirst;
}

/** Why a print of the basis gives no moles of it: then no ratio could follow from it. */
function whyNoBasis(step: Step, known: Known): string | null {
  return publishedStep(step, known).basis ? null : words.basisAmount;
}

/** Why a print gives the charge no ratio; null where it gives one. */
function whyNoRatio(step: Step, id: string, known: Known): string | null {
  const published = publishedStep(step, known);
  const found = published.charges.get(id);
  if (found?.rule) return null;
  if (!published.basis) return basisTrouble(step, known);
  return words.noRatio(found?.why ? sentence({ ...found.why }) : '');
}

type Named = { readonly ok: true; readonly form: Form | null; readonly note: string | null };

/** "Concentrated", "fuming" as the one strength the trade sells so; a question where there are several or none. */
function namedStrength(
  { named: word, printed, note }: Said,
  facts: Facts,
  reference: Reference,
): Named | { readonly ok: false; readonly words: string } {
  const given = readPrinted(printed);
  // "conc. hydrochloric acid (12 mol/L, 8.3 mL)": the word asks for nothing where the figure stands beside it.
  if (word !== null && given.ok && given.strength) return { ok: true, form: null, note: word };
  // "ammonia gas", "hydrogen chloride gas": sold dissolved, and not meant so.
  if (word === null && /\bgas(?:eous)?\b/i.test(note ?? '')) return { ok: true, form: NEAT, note: null };
  if (word === null) return { ok: true, form: facts.usuallyDissolved ? { kind: 'unknown' } : null, note: null };
  if (word === 'saturated' || word === 'dilute') return { ok: true, form: { kind: 'unknown' }, note: word };
  if (word === 'glacial') return { ok: true, form: null, note: word };
  const rows = (facts.cas === null ? [] : (reference.usualStrengths.get(facts.cas) ?? [])).filter((row) =>
    row.label.startsWith(word),
  );
  const [only] = rows;
  if (!only || rows.length > 1) {
    const strengths = rows.map((row) => row.strength);
    return { ok: false, words: words.whichStrength(word, facts.name, strengths) };
  }
  const read = readPrinted(`1 g of ${only.strength}`);
  if (!read.ok || !read.strength) return { ok: false, words: words.whichStrength(word, facts.name, []) };
  const form: Form = { kind: 'solution', strength: read.strength, solvent: only.solvent };
  return { ok: true, form, note: words.takenAs(word, only.strength) };
}
