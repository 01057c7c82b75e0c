import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { addCharge } from '../../../core/procedure/add-charge.ts';
import { readChargeLine, withSaid } from '../../../core/procedure/charge-line.ts';
import { strengthBefore } from '../../../core/procedure/line-strength.ts';
import { materialChoices, type NameChoice } from '../../../core/route/choose-material.ts';
import { formulaChoice, formulaTaken } from '../../../core/route/formula-question.ts';
import type { Route, Step } from '../../../core/route/route.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { editedRoute, editRoute } from '../../state/route-edits.ts';
import { lastLine, lineWanted } from '../../state/route-view.ts';
import { reference } from '../../state/workbook.ts';
import { Combo } from './combo.tsx';
import { useKeptText } from './kept-text.ts';

const words = routeEditorWords.line;

interface ChargeEntryProps {
  readonly step: Step;
  readonly route: Route;
  /** The operation it goes behind; the last one where none is named. */
  readonly after?: { readonly id: string; readonly name: string };
}

/** The next charge of a step in one line, as the procedure prints it. Enter takes it, and the next line starts; it stands last. */
export function ChargeEntry({ step, route, after }: ChargeEntryProps) {
  const kept = useKeptText(`${step.id}/line ${after?.id ?? ''}`);
  const text = kept.value ?? '';
  const refused = useSignal<{ readonly at: number; readonly words: string } | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const wanted = after === undefined && lineWanted.value === step.id;
  useLayoutEffect(() => {
    if (!wanted) return;
    field.current?.focus();
    field.current?.scrollIntoView({ block: 'nearest' });
    lineWanted.value = null;
  }, [wanted]);
  // A charge that was just entered stands above the line and moves it down: the line stays in sight.
  useLayoutEffect(() => {
    if (document.activeElement === field.current) field.current?.scrollIntoView({ block: 'nearest' });
  }, [step.operations.length]);
  const tables = reference.value;
  if (!tables) return null;
  const line = readChargeLine(text);
  const strength = line.ok ? '' : strengthBefore(text);
  const name = line.ok ? line.name : text.slice(strength.length);
  const within = editedRoute() ?? route;
  const choices = materialChoices(name, within, tables);
  const enter = (chosen: NameChoice | null): void => {
    if (text.trim() === '') return;
    if (!line.ok) {
      // A name alone is completed; its amount is typed behind it.
      const completes = chosen && chosen.from !== 'own' && !/\d\s*$/.test(text) && !chosen.exact;
      if (completes) kept.value = `${strength}${chosen.name} `;
      else refused.value = line;
      return;
    }
    if (!chosen) return;
    const edited = editRoute(routeEditorWords.edits.charge(chosen.name), (now) =>
      addCharge(
        now,
        step.id,
        chosen.choice,
        withSaid(line, chosen.said),
        tables,
        after?.id ?? step.operations.at(-1)?.id ?? null,
      ),
    );
    lastLine.value = step.id;
    refused.value = edited.ok ? null : { at: 0, words: edited.problems.map((one) => one.words).join('; ') };
    if (edited.ok) kept.value = null;
  };
  return (
    <Combo
      field={field}
      label={after ? words.after(after.name) : words.label(step.title)}
      text={text}
      placeholder={words.example}
      choices={choices}
      problem={refused.value}
      question={formulaChoice(name, within, tables)}
      hint={(chosen) => {
        if (!chosen) return words.hint;
        const taken = formulaTaken(name, chosen.name, within, tables);
        const does = line.ok ? words.takes(chosen.name, line.printed) : words.completes(chosen.name);
        return taken === null ? does : `${does}. ${taken}`;
      }}
      onText={(typed) => {
        kept.value = typed === '' ? null : typed;
        refused.value = null;
      }}
      onEnter={enter}
    />
  );
}
