import { useSignal } from '@preact/signals';
import { factsOf } from '../../../core/matter/facts.ts';
import { gramsPerMillilitre } from '../../../core/matter/solution.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { weighedLeft } from '../../../core/shelf/weighed.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { reference } from '../../state/workbook.ts';
import { ActForm } from './act-form.tsx';
import { useTyped } from './move-state.ts';
import { readMeasure } from './read-measure.ts';
import { ledgerNumber, shown } from './shown-amount.ts';
import { TextField } from './text-field.tsx';

const words = shelfActWords.weigh;

interface WeighFormProps {
  readonly bottle: BottleRow;
  readonly onRecorded: () => Promise<void>;
}

/** The bottle on the balance: what is left is gross less tare, recorded as measured. */
export function WeighForm({ bottle, onRecorded }: WeighFormProps) {
  const gross = useTyped(`${bottle.id} gross`);
  const remark = useTyped(`${bottle.id} weighed remark`);
  const said = useSignal('');
  const problem = useSignal<Problem | null>(null);
  const ahead = readWeighing(gross.value, bottle);
  const type = (field: typeof gross, text: string): void => {
    field.value = text;
    said.value = '';
    problem.value = null;
  };
  const record = async (): Promise<void> => {
    if (!ahead.ok) {
      problem.value = ahead;
      return;
    }
    const answer = await call('shelf.weigh', { id: bottle.id, gross: ahead.gross, reason: remark.value.trim() });
    if (!answer.ok) {
      said.value = shelfWords.bottle.notSaved(troubleWords(answer));
      return;
    }
    type(gross, '');
    type(remark, '');
    said.value = shelfWords.move.recorded(shown(answer.value.left, bottle.unit));
    await onRecorded();
  };
  return (
    <details class="bottle-test">
      <summary>{words.title}</summary>
      {bottle.tare === null ? (
        <p class="soft">{words.needsTare}</p>
      ) : (
        <ActForm
          title={words.title}
          record={record}
          button={words.record}
          status={said.value === '' && ahead.ok ? words.ahead(shown(ahead.left, bottle.unit)) : said.value}
        >
          <TextField
            label={words.gross}
            value={gross.value}
            placeholder={words.tare(`${ledgerNumber(bottle.tare)} g`)}
            problem={problem.value ?? undefined}
            onInput={(text) => type(gross, text)}
          />
          <TextField
            label={words.remark}
            value={remark.value}
            placeholder={shelfWords.move.optional}
            onInput={(text) => type(remark, text)}
          />
        </ActForm>
      )}
    </details>
  );
}

interface Problem {
  readonly at: number;
  readonly words: string;
}

type Weighing = { readonly ok: true; readonly gross: number; readonly left: number } | ({ readonly ok: false } & Problem);

/** What a typed gross mass comes to. */
export function readWeighing(typed: string, bottle: BottleRow): Weighing {
  const read = readMeasure.tare(typed);
  if (!read.ok) return { ok: false, at: read.at, words: words.needsMass };
  const { tare, unit } = bottle;
  const weighed = weighedLeft({ gross: read.value, tare, unit, density: densityOf(bottle) });
  if (weighed.ok) {
    const same = Math.round(weighed.left * 1e6) === Math.round(bottle.left * 1e6);
    return same ? { ok: false, at: 0, words: words.same } : { ok: true, gross: read.value, left: weighed.left };
  }
  const why = {
    'no tare': words.needsTare,
    'lighter than empty': words.lighter(`${ledgerNumber(tare ?? 0)} g`),
    'no density': words.noDensity,
  };
  return { ok: false, at: 0, words: why[weighed.why] };
}

function densityOf({ unit, material, form }: BottleRow): number | null {
  const tables = reference.value;
  if (unit === 'g' || !tables) return null;
  const density = gramsPerMillilitre(factsOf(material, tables), form, tables);
  return density.ok ? density.figure.value : null;
}
