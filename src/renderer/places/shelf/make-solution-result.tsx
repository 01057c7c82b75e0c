import type { ComponentChildren } from 'preact';
import { type SolutionOperation, solutionOrder } from '../../../core/bench/solution-order.ts';
import { solventOf } from '../../../core/matter/form.ts';
import type { SolutionPlan } from '../../../core/matter/make-solution.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import type { Reference } from '../../../core/reference.ts';
import { formWords, wantedWords } from '../../../core/words/form-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { solutionWords as words } from '../../../core/words/solution-words.ts';
import type { Maybe } from '../../../core/words/why.ts';
import { Amount } from '../../parts/amount.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { NoticeMark } from '../../parts/notices.tsx';
import type { SolutionDraft } from './make-solution-draft.ts';
import { SolutionHeatPart } from './make-solution-heat.tsx';
import { SolutionHazards } from './make-solution-hazards.tsx';
import { SolutionPapers } from './make-solution-papers.tsx';
import type { SolutionReading, Source } from './make-solution-read.ts';
import { shown } from './shown-amount.ts';

const result = words.result;

interface SolutionResultProps {
  readonly plan: SolutionPlan;
  readonly reading: SolutionReading;
  readonly draft: SolutionDraft;
  readonly tables: Reference;
}

/** The solution as a whole, its parts in order with what to know before each, its heat, hazards and paper. */
export function SolutionResult({ plan, reading, draft, tables }: SolutionResultProps) {
  if (plan.problem) {
    return (
      <p class="solution-problem" role="alert">
        <NoticeMark notice={{ level: 'error', code: '' }} />
        {sentence(plan.problem)}
      </p>
    );
  }
  const operations = solutionOrder(plan, tables);
  return (
    <>
      <Whole plan={plan} />
      <h2>{result.order}</h2>
      <Order operations={operations} plan={plan} reading={reading} />
      <p class="soft small">{result.volumes}</p>
      <SolutionHeatPart heat={plan.heat} />
      <SolutionHazards plan={plan} tables={tables} />
      <SolutionPapers plan={plan} reading={reading} draft={draft} operations={operations.length} tables={tables} />
    </>
  );
}

function Whole({ plan }: { readonly plan: SolutionPlan }) {
  const { solute } = plan.ask;
  const whole = [plan.grams, plan.millilitres, plan.moles, plan.density];
  const reasons = [...new Set(whole.flatMap((one) => (one.ok ? [] : [sentence(one.why)])))];
  return (
    <>
      <h2>
        {solute.name} {wantedWords(plan.ask)}
      </h2>
      <dl class="solution-whole">
        <Said name={result.weighs} maybe={plan.grams} />
        <Said name={result.fills} maybe={plan.millilitres} />
        <Said name={result.holds} maybe={plan.moles} />
        <Said name={result.density} maybe={plan.density} />
      </dl>
      {reasons.map((reason) => (
        <p key={reason} class="soft small">
          {reason}
        </p>
      ))}
    </>
  );
}

/** A figure with its name; why one is not known is said once, under all of them. */
function Said({ name, maybe }: { readonly name: string; readonly maybe: Maybe<'g' | 'mL' | 'mol' | 'g/mL'> }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{maybe.ok ? <Amount figure={maybe.figure} /> : <span class="soft">{result.unknown}</span>}</dd>
    </div>
  );
}

interface OrderProps {
  readonly operations: readonly SolutionOperation[];
  readonly plan: SolutionPlan;
  readonly reading: SolutionReading;
}

function Order({ operations, plan, reading }: OrderProps) {
  return (
    <table class="operations solution-order">
      <thead>
        <tr>
          <th scope="col">{result.heads.number}</th>
          <th scope="col">{result.heads.what}</th>
          <th scope="col" class="number">
            {result.heads.mass}
          </th>
          <th scope="col" class="number">
            {result.heads.volume}
          </th>
        </tr>
      </thead>
      <tbody>
        {operations.map((operation, at) => (
          <Operation key={at} number={at + 1} operation={operation} plan={plan} reading={reading} />
        ))}
      </tbody>
    </table>
  );
}

interface OperationProps {
  readonly number: number;
  readonly operation: SolutionOperation;
  readonly plan: SolutionPlan;
  readonly reading: SolutionReading;
}

function Operation({ number, operation, plan, reading }: OperationProps) {
  return (
    <>
      {operation.before.length > 0 && (
        <tr class="op-before">
          <td />
          <td colSpan={3} class="tone-accent">
            {operation.before.map((notice) => (
              <p key={notice.code}>
                <NoticeMark notice={notice} />
                {sentence(notice)}
              </p>
            ))}
          </td>
        </tr>
      )}
      <tr class="op">
        <td class="op-stage">{number}</td>
        {operation.do === 'put in' ? (
          <PutIn operation={operation} plan={plan} reading={reading} />
        ) : (
          <th scope="row" colSpan={3}>
            {actWords(operation, plan)}
          </th>
        )}
      </tr>
    </>
  );
}

function PutIn({
  operation,
  plan,
  reading,
}: {
  readonly operation: Extract<SolutionOperation, { readonly do: 'put in' }>;
  readonly plan: SolutionPlan;
  readonly reading: SolutionReading;
}) {
  const from = operation.part === 'source' ? reading.source : reading.weaker;
  const { grams, millilitres } = operation.portion;
  return (
    <>
      <th scope="row">
        {from ? from.facts.name : solventOf(plan.ask.form)} {from && <span class="form-words">{formWords(from.form)}</span>}
        <span class="op-detail">
          {[words.manners[operation.manner], placeWords(from)].filter((one) => one !== '').join(' · ')}
        </span>
        {from && <Short from={from} grams={grams} millilitres={millilitres} />}
      </th>
      <td class="number op-take">
        {grams.ok ? <Amount figure={grams.figure} size="large" aligned /> : <span class="small">{result.unknown}</span>}
      </td>
      <td class="number">{millilitres.ok ? <Amount figure={millilitres.figure} aligned /> : <NoVolume maybe={millilitres} />}</td>
    </>
  );
}

/** A solid needs no volume; anything else whose volume is missing says why. */
function NoVolume({ maybe }: { readonly maybe: Maybe<'mL'> }): ComponentChildren {
  if (maybe.ok || maybe.why.code === 'weighed, not measured') return null;
  return <span class="small">{sentence(maybe.why)}</span>;
}

function placeWords(from: Source | null): string {
  const bottle = from?.bottle?.bottle;
  if (!bottle) return '';
  return [bottle.lot ? words.ask.lot(bottle.lot) : '', bottle.place ?? ''].filter((one) => one !== '').join(' · ');
}

/** Said where the bottle holds less than is taken. */
function Short({
  from,
  grams,
  millilitres,
}: {
  readonly from: Source;
  readonly grams: Maybe<'g'>;
  readonly millilitres: Maybe<'mL'>;
}) {
  const bottle = from.bottle?.bottle;
  if (!bottle) return null;
  const needed: Maybe<'g'> | Maybe<'mL'> = bottle.unit === 'g' ? grams : millilitres;
  if (!needed.ok || needed.figure.value <= bottle.left * (1 + 1e-9)) return null;
  return (
    <span class="op-detail solution-short">
      <NoticeMark notice={{ level: 'short', code: '' }} /> {result.short(shown(bottle.left, bottle.unit))}
    </span>
  );
}

function actWords(operation: SolutionOperation, plan: SolutionPlan): string {
  const solvent = solventOf(plan.ask.form);
  const text = (figure: Pick<Figure, 'value' | 'unit' | 'digits'>): string => {
    const { text: number, unit } = formatAmount(figure, decimalMark);
    return `${number}\u00a0${unit}`;
  };
  const volume = plan.millilitres.ok ? plan.millilitres.figure : null;
  switch (operation.do) {
    case 'start with':
      return words.acts.startWith(
        volume ? text({ ...volume, value: volume.value * operation.partOfVolume, digits: 2 }) : '',
        solvent,
      );
    case 'let cool':
      return words.acts.cool(operation.celsius);
    case 'fill up':
      return words.acts.fillUp(solvent, volume ? text(volume) : '');
    case 'label':
    case 'put in':
      return words.acts.label;
  }
}
