import { withPrint, withRatio, withYield } from '../../../core/procedure/edit-print.ts';
import type { Known } from '../../../core/procedure/printed-amount.ts';
import { type PublishedCharge, publishedStep } from '../../../core/procedure/published.ts';
import { ratioText, readRatio } from '../../../core/procedure/ratio-text.ts';
import { readPrinted } from '../../../core/procedure/read-printed.ts';
import { readPrintedProduct, readPrintedYield } from '../../../core/procedure/read-product.ts';
import type { Charge, Step } from '../../../core/route/route.ts';
import type { Notice } from '../../../core/words/notice.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { Amount } from '../../parts/amount.tsx';
import { NoticeMark } from '../../parts/notices.tsx';
import { changeStep } from '../../state/route-edits.ts';
import { PrintField } from './print-field.tsx';

const words = routesWords.published;
const edits = routeEditorWords.edits;

interface CellProps {
  readonly charge: Charge;
  readonly step: Step;
  readonly known: Known | null;
  readonly name: string;
}

/** A charge as the procedure prints it, with the moles and equivalents that the print comes to. */
export function PrintCell({ charge, step, known, name, found }: CellProps & { readonly found: PublishedCharge | null }) {
  if (!known) return <>{charge.printed ?? ''}</>;
  return (
    <>
      <PrintField
        label={words.label(name)}
        value={charge.printed ?? ''}
        placeholder={words.example}
        check={(text) => wrong(readPrinted(text))}
        onCommit={(text) => changeStep(step.id, edits.printed(name), (now) => withPrint(now, charge.id, text, known))}
      />
      {found?.moles && (
        <span class="op-detail">
          <Amount figure={found.moles} /> {found.equivalents && charge.rule.kind !== 'basis' && <Equivalents found={found} />}
        </span>
      )}
    </>
  );
}

function Equivalents({ found }: { readonly found: PublishedCharge }) {
  return (
    <>
      · <Amount figure={found.equivalents} unit="equiv" text={found.equivalents?.value.toPrecision(3) ?? ''} />
    </>
  );
}

/** The same charge as a ratio: typing here writes the print anew. */
export function RatioCell({ charge, step, known, name }: CellProps) {
  if (!known || charge.rule.kind === 'basis') return <>{routesWords.rule(charge.rule)}</>;
  return (
    <>
      <PrintField
        label={words.ratioLabel(name)}
        value={ratioText(charge.rule)}
        needed
        check={(text) => wrong(readRatio(text, step, charge.material))}
        onCommit={(text) => {
          const read = readRatio(text, step, charge.material);
          return read.ok ? changeStep(step.id, edits.ratio(name), (now) => withRatio(now, charge.id, read.rule, known)) : null;
        }}
      />
      {charge.rule.kind === 'until' && <span class="op-detail">{routesWords.rule(charge.rule)}</span>}
    </>
  );
}

/** What does not agree in a print, straight under its charge. */
export function PrintFlags({ notices }: { readonly notices: readonly Notice[] }) {
  return notices.map((notice) => (
    <tr key={notice.code} class="print-flag">
      <td />
      <td colSpan={5}>
        <NoticeMark notice={notice} />
        {sentence(notice)}
      </td>
    </tr>
  ));
}

/** Product and yield as printed: the expected yield of the step follows. */
export function ProductPrint({ step, known }: { readonly step: Step; readonly known: Known | null }) {
  if (!known) return null;
  const found = publishedStep(step, known);
  const flags = found.notices.filter((notice) => notice.at.operation === undefined);
  const set = (field: 'product' | 'yield') => (text: string) =>
    changeStep(step.id, edits.printed(step.title), (now) => withYield(now, { ...now.printed, [field]: text }, known));
  return (
    <div class="product-print">
      <label>
        <span class="soft">{words.product}</span>
        <PrintField
          label={words.product}
          value={step.printed?.product ?? ''}
          placeholder={words.productExample}
          check={(text) => wrong(readPrintedProduct(text))}
          onCommit={set('product')}
        />
      </label>
      <label>
        <span class="soft">{words.yield}</span>
        <PrintField
          label={words.yield}
          value={step.printed?.yield ?? ''}
          placeholder={words.yieldExample}
          check={(text) => wrong(readPrintedYield(text))}
          onCommit={set('yield')}
        />
      </label>
      {flags.map((notice) => (
        <p key={notice.code}>
          <NoticeMark notice={notice} />
          {sentence(notice)}
        </p>
      ))}
    </div>
  );
}

function wrong(read: { readonly ok: true } | { readonly ok: false; readonly at: number; readonly words: string }) {
  return read.ok ? null : { at: read.at, words: read.words };
}
