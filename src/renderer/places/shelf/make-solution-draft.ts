import { signal } from '@preact/signals';
import type { Form, Strength } from '../../../core/matter/form.ts';
import { Material } from '../../../core/matter/material.ts';

/** Everything typed and chosen for a solution, as typed. */
export interface SolutionDraft {
  /** What the strength is of: the bottle's or the charge's material. */
  readonly material: Material;
  readonly mode: 'make' | 'replace';
  /** "250 mL of 3 mol/L" */
  readonly wanted: string;
  readonly solvent: string;
  /** Whether a strength counts the substance with its water of crystallisation. */
  readonly counts: 'anhydrous' | 'as it is';
  /** A bottle, one that is typed, or none yet. */
  readonly source: Chosen;
  readonly sourceText: string;
  /** A weaker solution in the place of the solvent. */
  readonly weaker: Chosen;
  readonly weakerText: string;
  readonly celsius: string;
  /** The bottle it was begun from; empty for a charge. */
  readonly begunFrom: string;
  /** The step it is made for, in words; empty for the shelf. */
  readonly purpose: string;
  readonly planName: string;
}

/** `bottle:B21`, typed by hand, or nothing (the solvent, where it is the second). */
export type Chosen = '' | 'typed' | `bottle:${string}`;

/** Kept outside the form, so that going to another place and back loses nothing. Null: nothing is being made. */
export const solutionDraft = signal<SolutionDraft | null>(null);

/** A field of the draft as it is typed. */
export function typeSolution<F extends keyof SolutionDraft>(field: F, value: SolutionDraft[F]): void {
  if (solutionDraft.value) solutionDraft.value = { ...solutionDraft.value, [field]: value };
}

const START: Omit<SolutionDraft, 'material'> = {
  mode: 'make',
  wanted: '',
  solvent: '',
  counts: 'anhydrous',
  source: '',
  sourceText: '',
  weaker: '',
  weakerText: '',
  celsius: '20',
  begunFrom: '',
  purpose: '',
  planName: '',
};

/** Drafts begun from other bottles, so that looking at one more bottle loses none of them. */
const begun = new Map<string, SolutionDraft>();

function putAside(): void {
  const draft = solutionDraft.value;
  if (draft && draft.begunFrom !== '') begun.set(draft.begunFrom, draft);
}

/** Begins with a bottle. A draft that was begun from it before is taken up again. */
export function solutionFrom(bottle: { readonly id: string; readonly material: Material; readonly form: Form }): void {
  putAside();
  const solvent = bottle.form.kind === 'solution' ? (bottle.form.solvent ?? '') : '';
  const fresh = { ...START, material: bottle.material, source: `bottle:${bottle.id}`, solvent, begunFrom: bottle.id } as const;
  solutionDraft.value = begun.get(bottle.id) ?? fresh;
}

/** What a charge asks for. */
export interface ChargedSolution {
  readonly material: Material;
  readonly form: Form & { readonly kind: 'solution' };
  readonly saturated?: boolean;
  readonly amount: string;
  readonly mode: SolutionDraft['mode'];
  readonly bottle: string | null;
  readonly purpose: string;
  readonly planName: string;
}

/** Begins with a charge: what it asks for is what is wanted, counted as the route counts it. */
export function solutionForCharge({ material, form, saturated, amount, mode, bottle, purpose, planName }: ChargedSolution): void {
  putAside();
  solutionDraft.value = {
    ...START,
    material,
    mode,
    wanted: `${amount} of ${saturated ? 'saturated' : strengthText(form.strength)}`,
    solvent: form.solvent ?? '',
    counts: 'as it is',
    source: bottle === null ? '' : `bottle:${bottle}`,
    purpose,
    planName,
  };
}

function strengthText({ value, basis, equivalentsPerMole }: Strength): string {
  return equivalentsPerMole === undefined ? `${value} ${basis}` : `${value} ${basis} (${equivalentsPerMole} per mol)`;
}

/** Only this window writes there; what could have come from an older version is still looked at. */
export function isSolutionDraft(value: unknown): value is SolutionDraft {
  if (value === null || typeof value !== 'object' || !('material' in value)) return false;
  const texts = Object.keys(START).every((name) => typeof (value as Record<string, unknown>)[name] === 'string');
  return texts && Material.safeParse(value.material).success;
}
