import type { Facts } from '../../../core/matter/facts.ts';
import { factsOf } from '../../../core/matter/facts.ts';
import { type Form, solventOf } from '../../../core/matter/form.ts';
import { makeSolution, type SolutionPlan } from '../../../core/matter/make-solution.ts';
import { readPresented, readSolution } from '../../../core/matter/read-solution.ts';
import { type Saturated, saturatedInWater } from '../../../core/matter/saturated.ts';
import { type Replacement, replaceStrength } from '../../../core/matter/replace-strength.ts';
import { anhydrousOf, type Presented, type SolutionForm } from '../../../core/matter/solution-parts.ts';
import type { Governed } from '../../../core/plan/amounts.ts';
import { entered } from '../../../core/quantity/figure.ts';
import type { Reference } from '../../../core/reference.ts';
import { solutionWords } from '../../../core/words/solution-words.ts';
import type { SourceBottle } from './make-solution-bottles.ts';
import type { Chosen, SolutionDraft } from './make-solution-draft.ts';

const words = solutionWords;

interface Problem {
  readonly at: number;
  readonly words: string;
}

/** Fields of the form that can be wrong. */
export type SolutionField = 'wanted' | 'sourceText' | 'weakerText' | 'celsius';
export type SolutionProblems = Partial<Record<SolutionField, Problem>>;

/** What the form says: a plan or a replacement where it can be worked out, and every field that needs another look. */
export interface SolutionReading {
  readonly problems: SolutionProblems;
  readonly plan: SolutionPlan | null;
  readonly replacement: { readonly found: Replacement; readonly asked: SolutionForm; readonly instead: Form } | null;
  /** The solute as the strength counts it. */
  readonly solute: Facts;
  readonly source: Source | null;
  readonly weaker: Source | null;
}

export interface Source extends Presented {
  /** Null where it is not on the shelf. */
  readonly bottle: SourceBottle | null;
}

/** Reads the form as it stands; a field that is empty is no problem, it is only not there yet. */
export function readDraft(draft: SolutionDraft, bottles: readonly SourceBottle[], tables: Reference): SolutionReading {
  const problems: { -readonly [F in SolutionField]?: Problem } = {};
  const own = factsOf(draft.material, tables);
  const solute = draft.counts === 'anhydrous' ? anhydrousOf(own, tables) : own;
  const solvent = draft.solvent.trim() === '' ? undefined : draft.solvent.trim();
  const wanted = readWanted(draft, solvent, solute, tables, problems);
  const pick = (chosen: Chosen, text: string, field: 'sourceText' | 'weakerText'): Source | null =>
    sourceOf({ chosen, text, field, own, solvent }, bottles, problems);
  const source = pick(draft.source, draft.sourceText, 'sourceText');
  const weaker = pick(draft.weaker, draft.weakerText, 'weakerText');
  const celsius = readCelsius(draft.celsius, problems);
  const ready = wanted !== null && source !== null && celsius !== null && Object.keys(problems).length === 0;
  const waiting = draft.weaker !== '' && weaker === null;
  return {
    problems,
    solute,
    source,
    weaker,
    plan:
      ready && !waiting && draft.mode === 'make'
        ? makeSolution(
            { solute, form: wanted.form, amount: wanted.amount, saturated: wanted.saturated, source, weaker, celsius },
            tables,
          )
        : null,
    replacement:
      ready && draft.mode === 'replace'
        ? {
            found: replaceStrength(source.facts, { form: wanted.form, amount: wanted.amount }, source.form, tables),
            asked: wanted.form,
            instead: source.form,
          }
        : null,
  };
}

type Problems = { -readonly [F in SolutionField]?: Problem };

function readWanted(
  { wanted }: SolutionDraft,
  solvent: string | undefined,
  solute: Facts,
  tables: Reference,
  problems: Problems,
): { readonly form: SolutionForm; readonly amount: Governed; readonly saturated: Saturated | null } | null {
  if (wanted.trim() === '') return null;
  const read = readSolution(wanted);
  if (!read.ok) {
    problems.wanted = read;
    return null;
  }
  const { by, value } = read.amount;
  // What is wanted is a decision, not a reading: exact, however few digits it was typed with.
  const amount = { by, figure: entered('wanted', value, by, words.ask.wanted) } as Governed;
  if (read.strength !== 'saturated') {
    const form = { kind: 'solution', strength: read.strength, ...(solvent === undefined ? {} : { solvent }) } as const;
    return { form, amount, saturated: null };
  }
  const saturated = solventOf({ solvent }) === 'water' ? saturatedInWater(solute, tables) : null;
  if (saturated) return { form: saturated.form, amount, saturated };
  problems.wanted = { at: wanted.search(/saturated/i), words: words.read.saturated };
  return null;
}

interface Pick {
  readonly chosen: Chosen;
  readonly text: string;
  readonly field: 'sourceText' | 'weakerText';
  readonly own: Facts;
  readonly solvent: string | undefined;
}

function sourceOf(
  { chosen, text, field, own, solvent }: Pick,
  bottles: readonly SourceBottle[],
  problems: Problems,
): Source | null {
  if (chosen === '') return null;
  if (chosen !== 'typed') {
    const found = bottles.find(({ bottle }) => chosen === `bottle:${bottle.id}`);
    return found ? { facts: found.facts, form: found.bottle.form, bottle: found } : null;
  }
  if (text.trim() === '') return null;
  const read = readPresented(text, solvent);
  if (read.ok) return { facts: own, form: read.form, bottle: null };
  problems[field] = read;
  return null;
}

const COLDEST = -20;
const WARMEST = 60;

function readCelsius(text: string, problems: Problems): number | null {
  const found = /^\s*([-−]?\d{1,3}(?:[.,]\d+)?)\s*(?:°?\s*C)?\s*$/.exec(text);
  const value = Number((found?.[1] ?? '').replace('−', '-').replace(',', '.'));
  if (found && value >= COLDEST && value <= WARMEST) return value;
  problems.celsius = { at: 0, words: found ? words.read.celsiusRange : words.read.celsius };
  return null;
}
