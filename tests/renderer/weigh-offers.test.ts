import { beforeEach, expect, test } from 'vitest';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { isOffered } from '../../src/renderer/state/weigh-bottles.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { charge } from '../core/run-fixture.ts';
import { realPort } from './real-port.ts';

beforeEach(async () => {
  connectPort(realPort());
  await openWorkbook();
});

const bottle = (unit: 'g' | 'mL') => ({ id: 'b', material: 'salt', form: { kind: 'neat' as const }, left: 950, unit });

test('brine, of a strength not known, is never offered from the bottle of the solid; from one in millilitres it is', () => {
  const brine = charge({ id: 'salt', unit: 'mL', molesPerUnit: null });
  expect([isOffered(brine, bottle('g')), isOffered(brine, bottle('mL'))]).toEqual([false, true]);
  // What has no known moles, charcoal, is weighed from its bottle as before.
  expect(isOffered(charge({ id: 'charcoal', unit: 'g', molesPerUnit: null }), bottle('g'))).toBe(true);
});
