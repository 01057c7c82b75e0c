import { effect } from '@preact/signals';
import * as z from 'zod/mini';
import { Form } from '../../../core/matter/form.ts';
import { Material } from '../../../core/matter/material.ts';
import { keepInWindow, textsIn, type WindowStore } from '../../state/kept-in-window.ts';
import { typedTexts } from '../../state/typed-texts.ts';
import { FileChoices } from '../../../core/port/files.ts';
import { importState, type KeptImport, keptImport, openImport } from './import/import-store.ts';
import { isSolutionDraft, solutionDraft } from './make-solution-draft.ts';
import { type Basis, type Draft, EMPTY_DRAFT, type Entry, type Filled, newBottle, waiting } from './new-bottle-draft.ts';
import { type Panel, panel } from './shelf-store.ts';

/** Keeps what is being typed on the Shelf, and what stands beside the list, over a reload of the window. */
export function keepShelfIn(store: WindowStore): () => void {
  const ends = [
    keepInWindow(store, 'backweigh new bottle', newBottle, readEntry),
    keepInWindow(store, 'backweigh set aside', waiting, readEntries),
    keepInWindow(store, 'backweigh solution', solutionDraft, (kept) => (isSolutionDraft(kept) ? kept : null)),
    keepInWindow(store, 'backweigh typed', typedTexts, textsIn),
    keepInWindow(store, 'backweigh import', keptImport, readImport),
    effect(() => {
      // A window that has just opened has none open yet: what was kept is looked at when its place is shown.
      if (importState.value.at !== 'nothing') keptImport.value = openImport();
    }),
    keepInWindow(store, 'backweigh panel', panel, readPanel),
  ];
  return () => ends.forEach((end) => end());
}

function readEntries(kept: unknown): readonly Entry[] | null {
  if (!Array.isArray(kept)) return null;
  return kept.flatMap((one) => readEntry(one) ?? []);
}

function readEntry(kept: unknown): Entry | null {
  if (kept === null || typeof kept !== 'object' || !('draft' in kept && 'filled' in kept)) return null;
  const draft = textsIn(kept.draft);
  const filled = textsIn(kept.filled);
  if (!draft || !filled) return null;
  const basis = 'basis' in kept ? readBasis(kept.basis) : null;
  const took = KeptTook.safeParse('took' in kept ? kept.took : []);
  return isDraft(draft) ? { draft, filled: filled satisfies Filled, basis, ...(took.success ? { took: took.data } : {}) } : null;
}

const KeptTook = z.array(
  z.strictObject({ id: z.string(), amount: z.number(), unit: z.enum(['g', 'mL']), name: z.string(), on: z.boolean() }),
);

function readBasis(kept: unknown): Basis | null {
  if (kept === null || typeof kept !== 'object' || !('how' in kept && 'id' in kept && 'draft' in kept)) return null;
  const { how, id } = kept;
  const draft = textsIn(kept.draft);
  const material = Material.safeParse('material' in kept ? kept.material : null);
  const form = Form.safeParse('form' in kept ? kept.form : null);
  if (!material.success || !form.success || !draft || !isDraft(draft) || typeof id !== 'string') return null;
  return how === 'correct' || how === 'another' ? { how, id, material: material.data, form: form.data, draft } : null;
}

const STATES = new Set(['', 'solid', 'liquid', 'gas']);
const KINDS = new Set(['neat', 'solution', 'unknown']);

function isDraft(texts: object): texts is Draft {
  const whole = Object.keys(EMPTY_DRAFT).every((field) => field in texts);
  if (!whole || !('state' in texts && 'kind' in texts)) return false;
  const on = 'assayOn' in texts ? texts.assayOn : '';
  return STATES.has(String(texts.state)) && KINDS.has(String(texts.kind)) && (on === '' || on === 'anhydrous');
}

function readImport(kept: unknown): KeptImport | null {
  if (kept === null || typeof kept !== 'object' || !('name' in kept && 'file' in kept && 'choices' in kept)) return null;
  const { name, file } = kept;
  const choices = FileChoices.safeParse(kept.choices);
  return typeof name === 'string' && typeof file === 'number' && choices.success ? { name, file, choices: choices.data } : null;
}

function readPanel(kept: unknown): Panel | null {
  const { show, id } = textsIn(kept) ?? {};
  if (show === 'bottle' && id !== undefined) return { show, id };
  if (show === 'solution') return solutionDraft.peek() ? { show } : null;
  if (show === 'import') return keptImport.peek() ? { show } : null;
  return show === 'new' ? { show } : null;
}
