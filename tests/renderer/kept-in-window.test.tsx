import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { useInlineEdit } from '../../src/renderer/places/shelf/inline-edit.ts';
import { keepShelfIn } from '../../src/renderer/places/shelf/kept-shelf.ts';
import { solutionDraft, solutionFrom } from '../../src/renderer/places/shelf/make-solution-draft.ts';
import { clearDraft, EMPTY_DRAFT, newBottle, typeInto } from '../../src/renderer/places/shelf/new-bottle-draft.ts';
import { closePanel, openBottle, panel } from '../../src/renderer/places/shelf/shelf-store.ts';
import { keepRefusedIn } from '../../src/renderer/state/kept-refused.ts';
import { keepRefused, refusedText, refusedTexts } from '../../src/renderer/state/refused-texts.ts';
import { typedTexts } from '../../src/renderer/state/typed-texts.ts';

/** As the signals stand when a window is opened. */
function anew(): void {
  clearDraft();
  closePanel();
  solutionDraft.value = null;
  typedTexts.value = {};
  refusedTexts.value = [];
}

beforeEach(() => {
  sessionStorage.clear();
  anew();
});
afterEach(cleanup);

/** The window is loaded again: what was kept stays, what only lived in it is gone. */
function reload(end: () => void): () => void {
  end();
  anew();
  return keepShelfIn(sessionStorage);
}

describe('a reload finds again', () => {
  test('a new bottle that is being typed, and its form', () => {
    const end = keepShelfIn(sessionStorage);
    panel.value = { show: 'new' };
    typeInto('name', 'benzil');
    typeInto('kind', 'solution');
    const again = reload(end);
    expect(newBottle.value.draft).toEqual({ ...EMPTY_DRAFT, name: 'benzil', kind: 'solution' });
    expect(panel.value).toEqual({ show: 'new' });
    clearDraft();
    closePanel();
    reload(again)();
    expect(newBottle.value.draft).toEqual(EMPTY_DRAFT);
    expect(panel.value).toEqual({ show: 'nothing' });
  });

  test('a solution that is being made', () => {
    const end = keepShelfIn(sessionStorage);
    solutionFrom({ id: 'B1', material: { name: 'sulfuric acid', formula: 'H2SO4' }, form: { kind: 'neat' } });
    panel.value = { show: 'solution' };
    reload(end)();
    expect(solutionDraft.value?.material.name).toBe('sulfuric acid');
    expect(panel.value).toEqual({ show: 'solution' });
  });

  test('a note that is being typed on a bottle, and says that it is not saved yet', async () => {
    const Note = () => {
      const { wrong, handlers } = useInlineEdit('B1 note', 'old', async () => '');
      return (
        <p>
          <input type="text" aria-label="note" {...handlers} />
          {wrong.value}
        </p>
      );
    };
    const end = keepShelfIn(sessionStorage);
    openBottle('B1');
    render(<Note />);
    fireEvent.input(screen.getByLabelText('note'), { target: { value: 'smells of alm' } });
    cleanup();
    reload(end)();
    expect(panel.value).toEqual({ show: 'bottle', id: 'B1' });
    render(<Note />);
    expect(screen.getByLabelText<HTMLInputElement>('note').value).toBe('smells of alm');
    expect(screen.getByText(/not saved yet/)).toBeTruthy();
    fireEvent.keyDown(screen.getByLabelText('note'), { key: 'Escape' });
    expect(typedTexts.value).toEqual({});
  });

  test('a text that a plan refused', () => {
    const end = keepRefusedIn(sessionStorage);
    keepRefused({ plan: 3, field: { step: 'benzil' }, text: '101', after: 2 });
    end();
    anew();
    keepRefusedIn(sessionStorage)();
    expect(refusedText(3, { step: 'benzil' })).toBe('101');
    expect(refusedTexts.value[0]?.after).toBe(0);
  });
});

test.each([
  '{',
  'null',
  '3',
  '[]',
  '{"draft":{},"filled":{}}',
  '{"show":"elsewhere"}',
  '[{"plan":"x"}]',
  '{"material":{"name":3}}',
])('what cannot be read is left alone: %s', (text) => {
  for (const name of ['new bottle', 'solution', 'typed', 'panel', 'refused']) sessionStorage.setItem(`backweigh ${name}`, text);
  keepShelfIn(sessionStorage)();
  keepRefusedIn(sessionStorage)();
  expect(newBottle.value.draft).toEqual(EMPTY_DRAFT);
  expect(solutionDraft.value).toBeNull();
  expect(panel.value).toEqual({ show: 'nothing' });
  expect(refusedTexts.value).toEqual([]);
});
