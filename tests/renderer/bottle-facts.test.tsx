import { cleanup, render, screen } from '@testing-library/preact';
import { afterEach, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import type { BottleRow } from '../../src/core/port/shelf.ts';
import { BottleFacts } from '../../src/renderer/places/shelf/bottle-facts.tsx';
import { reference } from '../../src/renderer/state/workbook.ts';
import { REFERENCE } from './real-port.ts';

const ammonia = (form: Form): BottleRow => ({
  id: 'B1',
  material: { name: 'ammonia', formula: 'NH3', cas: '7664-41-7' },
  materialId: 'm1',
  form,
  left: 100,
  unit: 'mL',
  lot: '',
  place: '',
  supplier: '',
  received: null,
  opened: null,
  useBy: null,
  heldBack: false,
  note: '',
  tare: null,
  water: null,
  price: null,
});

afterEach(cleanup);

test('the hazards of an unknown strength are not said to be those of this strength', () => {
  reference.value = REFERENCE;
  const { unmount } = render(<BottleFacts bottle={ammonia({ kind: 'unknown' })} />);
  expect(screen.queryByText('hazards at this strength')).toBeNull();
  expect(screen.getByText('hazards at any strength, as this one is not known')).toBeTruthy();
  unmount();
  render(<BottleFacts bottle={ammonia({ kind: 'solution', strength: { value: 25, basis: '% w/w' } })} />);
  expect(screen.getByText('hazards at this strength')).toBeTruthy();
});
