import { type Signal, useSignal } from '@preact/signals';
import { type RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { PortResult } from '../../../core/port/result.ts';
import type { Reference } from '../../../core/reference.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { reference } from '../../state/workbook.ts';
import { clearDraft, type Draft, type DraftField, type Entry, newBottle, sameFields, typeInto } from './new-bottle-draft.ts';
import { type DraftProblems, MATERIAL_FIELDS, readNewBottle } from './read-new-bottle.ts';
import { openBottle } from './shelf-store.ts';
import { halfDates } from './text-field.tsx';

const words = shelfWords.new;

export type TypeInto = <F extends DraftField>(field: F, value: Draft[F]) => void;

interface NewBottleState {
  readonly form: RefObject<HTMLFormElement | null>;
  readonly problems: Signal<DraftProblems>;
  readonly said: Signal<string>;
  readonly type: TypeInto;
  readonly put: () => Promise<void>;
}

type ReadStructure = { readonly ok: true; readonly smiles?: string } | { readonly ok: false; readonly problems: DraftProblems };

/** The typed structure as a SMILES, or what speaks against it. Its reader is fetched only when there is one. */
async function readStructureField({ draft, basis }: Entry, tables: Reference): Promise<ReadStructure> {
  const { smiles, formula } = draft;
  // A material that stands as it was taken keeps its own structure.
  if (smiles.trim() === '' || (basis && sameFields(draft, basis.draft, MATERIAL_FIELDS))) return { ok: true };
  const [{ structureProblem }, { smilesOf }] = await Promise.all([
    import('../../../core/structure/agreement.ts'),
    import('../../../core/structure/structure.ts'),
  ]);
  const problem = structureProblem(smiles, formula.trim() === '' ? undefined : formula, tables);
  const read = problem ?? smilesOf(smiles);
  return read.ok ? read : { ok: false, problems: { smiles: read } };
}

function withStructure(input: ProcedureInput<'shelf.add'>, smiles: string | undefined): ProcedureInput<'shelf.add'> {
  return smiles === undefined ? input : { ...input, material: { ...input.material, smiles } };
}

function putOnShelf(
  { basis, took = [] }: Entry,
  bottle: ProcedureInput<'shelf.add'>,
): Promise<PortResult<{ readonly id: string }>> {
  const off = took.filter(({ on }) => on).map(({ id, amount }) => ({ id, amount }));
  if (basis?.how !== 'correct') return call('shelf.add', off.length === 0 ? bottle : { ...bottle, took: off });
  return call('shelf.correct', { id: basis.id, bottle });
}

/** The form while it is filled in. The draft is emptied only when the bottle is on the shelf. */
export function useNewBottle(): NewBottleState {
  const problems = useSignal<DraftProblems>({});
  const said = useSignal('');
  const busy = useSignal(false);
  const form = useRef<HTMLFormElement>(null);
  useLayoutEffect(() => form.current?.querySelector('input')?.focus(), []);
  const type: TypeInto = (field, value) => {
    typeInto(field, value);
    const { [field]: _mended, ...rest } = problems.value;
    problems.value = rest;
    said.value = '';
  };
  const put = async (): Promise<void> => {
    if (!reference.value || busy.value) return;
    const entry = newBottle.value;
    const read = readNewBottle(entry, reference.value);
    const half = halfDates(form.current).map((name) => [name, { at: 0, words: shelfWords.halfDate }] as const);
    busy.value = true;
    const structure = await readStructureField(entry, reference.value);
    problems.value = {
      ...(read.ok ? {} : read.problems),
      ...Object.fromEntries(half),
      ...(structure.ok ? {} : structure.problems),
    };
    if (!read.ok || half.length > 0 || !structure.ok) {
      busy.value = false;
      said.value = words.problems(Object.keys(problems.value).length);
      // Signals draw in a turn of their own; only then is the first bad field marked.
      queueMicrotask(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    said.value = words.putting;
    const { smiles } = structure;
    const input = withStructure(read.input, smiles);
    const answer = await putOnShelf(entry, input);
    busy.value = false;
    if (!answer.ok) {
      said.value = words.notPut(troubleWords(answer));
      return;
    }
    clearDraft();
    openBottle(answer.value.id);
  };
  return { form, problems, said, type, put };
}
