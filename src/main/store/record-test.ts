import type { Form } from '../../core/matter/form.ts';
import type { BottleTest, TestKind } from '../../core/shelf/shelf.ts';
import { lacksWater, withoutWater } from '../../core/shelf/wet-form.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from './refusal.ts';
import { appendTest } from './bottle-tests.ts';
import { readBottle } from './bottles.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { Database } from './database.ts';

export interface Found {
  readonly done: TestKind;
  readonly on: string;
  readonly form?: Form | undefined;
  readonly useBy?: string | null | undefined;
  readonly remark: string;
}

/**
 * Puts what a test found on the bottle, and the test into its history with what was there before. Only inside a write.
 */
export function recordTest(database: Database, code: string, found: Found, at: string): void {
  const record = readBottle(database, code);
  const before = JSON.parse(record.form) as Form;
  const form = found.form ? withoutWater(found.form) : before;
  if (lacksWater(form, record.water)) throw new Refusal('invalid input', mainWords.needsWater(code));
  const useBy = found.useBy === undefined ? record.use_by : found.useBy;
  const remark = found.remark.trim();
  const test: BottleTest = {
    done: found.done,
    on: found.on,
    before,
    form,
    ...(record.use_by === null ? {} : { useByBefore: record.use_by }),
    ...(useBy === null ? {} : { useBy }),
    ...(remark === '' ? {} : { remark }),
  };
  database.run('UPDATE bottle SET form = ?, use_by = ? WHERE id = ?', [canonicalJson(form), useBy, record.id]);
  appendTest(database, record.id, test, at);
}
