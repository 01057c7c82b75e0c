import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { readChargeLine, withSaid } from '../../../core/procedure/charge-line.ts';
import { readPrinted } from '../../../core/procedure/read-printed.ts';
import { strengthBefore } from '../../../core/procedure/line-strength.ts';
import { materialChoices, type NameChoice } from '../../../core/route/choose-material.ts';
import { type EnteredBasis, enteredStep, newRouteOf } from '../../../core/procedure/enter-step.ts';
import { formulaChoice } from '../../../core/route/formula-question.ts';
import { renameRoute } from '../../../core/route/edit-steps.ts';
import type { Route } from '../../../core/route/route.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { editRoute } from '../../state/route-edits.ts';
import { lastLine, lineWanted, newStepAt, type NewStepAt } from '../../state/route-view.ts';
import { createRoute } from '../../state/routes-store.ts';
import { reference } from '../../state/workbook.ts';
import { Combo } from './combo.tsx';

const words = routeEditorWords.newStep;

interface Problem {
  readonly at: number;
  readonly words: string;
}

interface NewStepFormProps {
  readonly where: NewStepAt;
  /** The open route; null for a new one. */
  readonly route: Route | null;
}

/** A new step: what it makes, and its first charge as printed, which the others refer to. */
export function NewStepForm({ where, route }: NewStepFormProps) {
  const product = useSignal('');
  const basis = useSignal('');
  const name = useSignal('');
  const productChosen = useSignal<NameChoice | null>(null);
  const basisChosen = useSignal<NameChoice | null>(null);
  const problem = useSignal<{ readonly in: 'product' | 'basis' | 'name'; readonly problem: Problem } | null>(null);
  const first = useRef<HTMLInputElement>(null);
  const second = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => (where.at === 'makes' ? second : first).current?.focus(), [where]);
  const tables = reference.value;
  if (!tables) return null;
  const fixed = where.at === 'route' ? null : (route?.materials[where.key]?.name ?? where.key);
  const line = readChargeLine(basis.value);
  const productChoices = materialChoices(product.value, route, tables);
  const basisName = line.ok ? line.name : basis.value.slice(strengthBefore(basis.value).length);
  const basisChoices = where.at === 'uses' ? [] : materialChoices(basisName, route, tables);
  const productAsked = formulaChoice(product.value, route, tables);
  const basisAsked = where.at === 'uses' ? null : formulaChoice(basisName, route, tables);
  const say = (at: 'product' | 'basis' | 'name', said: string, place = 0): void => {
    problem.value = { in: at, problem: { at: place, words: said } };
  };

  const make = async (from: NameChoice | null): Promise<void> => {
    const made = productChosen.value ?? productChoices[0] ?? null;
    if (where.at !== 'makes' && !made) return say('product', words.productExample);
    if (where.at !== 'makes' && !productChosen.value && productAsked !== null) return say('product', productAsked);
    if (!basisChosen.value && basisAsked !== null) return say('basis', basisAsked);
    const entered = basisOf(where, basis.value, line, from);
    if ('words' in entered) return say('basis', entered.words, entered.at);
    const target = where.at === 'makes' ? { key: where.key } : (made?.choice ?? { key: '' });
    if (where.at === 'route') {
      const created = newRouteOf(name.value.trim() || capital(made?.name ?? ''), target, entered, tables);
      const problems = await createRoute(created);
      if (problems[0]) return say('basis', problems.map((one) => one.words).join('; '));
      done(created.ok ? created.step : null);
      return;
    }
    let id: string | null = null;
    const edited = editRoute(routeEditorWords.edits.step(made?.name ?? fixed ?? ''), (now) => {
      const added = enteredStep(now, target, entered, tables);
      if (!added.ok) return added;
      id = added.step;
      // Until a person names it, a route is called after what it makes in the end.
      const unnamed = where.at === 'uses' && now.name === capital(fixed ?? '');
      return unnamed ? renameRoute(added.route, capital(made?.name ?? now.name)) : added;
    });
    if (!edited.ok) return say('basis', edited.problems.map((one) => one.words).join('; '));
    done(id);
  };

  return (
    <section
      class="new-step"
      aria-labelledby="new-step-title"
      onKeyDown={(event) => {
        if (event.key === 'Escape') newStepAt.value = null;
      }}
    >
      <h2 id="new-step-title">
        {where.at === 'route'
          ? routeEditorWords.newRoute.title
          : where.at === 'makes'
            ? words.makes(fixed ?? '')
            : words.uses(fixed ?? '')}
      </h2>
      {where.at === 'route' && <p class="soft small">{routeEditorWords.newRoute.text}</p>}
      {where.at !== 'makes' && (
        <Combo
          field={first}
          label={words.product}
          text={product.value}
          placeholder={words.productExample}
          choices={productChoices}
          problem={problem.value?.in === 'product' ? problem.value.problem : null}
          question={productAsked}
          onPick={(picked) => {
            productChosen.value = picked;
            problem.value = null;
          }}
          hint={(chosen) => (chosen ? `${routeEditorWords.line.completes(chosen.name).split(',')[0]}` : '')}
          onText={(typed) => {
            product.value = typed;
            productChosen.value = null;
            problem.value = null;
          }}
          onEnter={(chosen) => {
            if (!chosen) return;
            productChosen.value = chosen;
            product.value = chosen.name;
            second.current?.focus();
          }}
        />
      )}
      <Combo
        field={second}
        label={where.at === 'uses' ? words.basisFixed(fixed ?? '') : words.basis}
        text={basis.value}
        placeholder={where.at === 'uses' ? words.amountExample : words.basisExample}
        choices={basisChoices}
        problem={problem.value?.in === 'basis' ? problem.value.problem : null}
        question={basisAsked}
        onPick={(picked) => {
          basisChosen.value = picked;
          problem.value = null;
        }}
        hint={(chosen) => (chosen && line.ok ? routeEditorWords.line.takes(chosen.name, line.printed) : '')}
        onText={(typed) => {
          basis.value = typed;
          basisChosen.value = null;
          problem.value = null;
        }}
        onEnter={(chosen) => void make(chosen)}
      />
      {where.at === 'route' && (
        <p class="combo">
          <label class="field-label" for="new-route-name">
            {routeEditorWords.newRoute.name}
          </label>
          <input
            id="new-route-name"
            class="field-input"
            type="text"
            autocomplete="off"
            placeholder={capital(productChosen.value?.name ?? productChoices[0]?.name ?? '')}
            maxLength={300}
            value={name.value}
            onInput={(event) => {
              name.value = event.currentTarget.value;
            }}
            onKeyDown={(event) => {
              if (event.key === 'Enter') void make(basisChosen.value ?? basisChoices[0] ?? null);
            }}
          />
        </p>
      )}
      <p class="route-acts">
        <button
          type="button"
          class="button button-strong"
          onClick={() => void make(basisChosen.value ?? basisChoices[0] ?? null)}
        >
          {where.at === 'route' ? routeEditorWords.newRoute.make : words.add}
        </button>
        <button
          type="button"
          class="button"
          onClick={() => {
            newStepAt.value = null;
          }}
        >
          {routeEditorWords.newRoute.cancel}
        </button>
      </p>
    </section>
  );
}

function done(step: string | null): void {
  newStepAt.value = null;
  lastLine.value = step;
  lineWanted.value = step;
}

/** An amount somewhere in a line: it is never part of a name. */
const AMOUNT = /\d\s*(?:[kmµ]?g|[mµ]?l|[mµk]?mol|moles?|grams?|equiv|%)(?!\p{L})/iu;

/** The basis as entered: a whole line, a name without an amount, or for a known material its amount alone. */
function basisOf(
  where: NewStepAt,
  text: string,
  line: ReturnType<typeof readChargeLine>,
  chosen: NameChoice | null,
): EnteredBasis | Problem {
  if (where.at === 'uses') {
    const printed = text.trim();
    const read = printed === '' ? null : readPrinted(printed);
    return read && !read.ok ? read : { choice: { key: where.key }, line: null, printed: printed === '' ? null : printed };
  }
  if (!chosen) return { at: 0, words: words.basisExample };
  if (line.ok) return { choice: chosen.choice, line: withSaid(line, chosen.said), printed: line.printed };
  // Without any amount it is a name alone; the amount can be typed later.
  return (/\d\s*\p{L}*\s*$/u.test(text) || AMOUNT.test(text)) && !chosen.exact
    ? line
    : { choice: chosen.choice, line: null, printed: null };
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
