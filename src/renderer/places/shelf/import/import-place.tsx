import './import.css';
import './fate-list.css';
import './file-menu.css';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { importScreenWords as words } from '../../../../core/words/shelf-import-screen-words.ts';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { closePanel } from '../shelf-store.ts';
import { chooseShelfFile } from './choose-shelf-file.ts';
import { FateList } from './fate-list.tsx';
import { ImportColumns } from './import-columns.tsx';
import { HowRead } from './how-read.tsx';
import {
  closeImport,
  type ImportState,
  importSaid,
  importState,
  importTrouble,
  progress,
  readOtherwise,
  resumeImport,
  stop,
  stopping,
} from './import-store.ts';
import { intakeBusy, intakes, intakeSaid, turnIntake } from './intakes-store.ts';
import { WriteBar } from './write-bar.tsx';

/** A file on its way to the shelf; takes the whole place. */
export function ImportPlace() {
  const title = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => {
    title.current?.focus();
    void resumeImport();
  }, []);
  const state = importState.value;
  return (
    <section class="import" aria-labelledby="import-title">
      <header class="import-head">
        <h1 id="import-title" ref={title} tabIndex={-1}>
          {words.title}
        </h1>
        {'name' in state && <p class="import-name">{state.name}</p>}
        <p class="import-acts">
          <button type="button" class="text-button" onClick={() => void chooseShelfFile()}>
            {words.choose}
          </button>
          <button
            type="button"
            class="text-button"
            onClick={() => {
              closeImport();
              closePanel();
            }}
          >
            {words.close}
          </button>
        </p>
        <p class="import-said" role="status">
          {importSaid.value}
        </p>
      </header>
      {importTrouble.value !== '' && (
        <p class="import-trouble" role="alert">
          {importTrouble.value}
        </p>
      )}
      <Body state={state} />
    </section>
  );
}

function Body({ state }: { readonly state: ImportState }) {
  switch (state.at) {
    case 'nothing':
      return null;
    case 'reading':
      return <Working name={state.name} />;
    case 'failed':
      return (
        <EmptyState title={state.name} text={words.notRead(state.words)}>
          <button type="button" class="button" onClick={() => void chooseShelfFile()}>
            {words.written.another}
          </button>
        </EmptyState>
      );
    case 'encoding':
      return <WhichEncoding ask={state.ask} />;
    case 'written':
      return <Written state={state} />;
    case 'shown':
    case 'writing':
      return (
        <div class="import-body">
          <div class="import-side" inert={state.at === 'writing'}>
            <HowRead preview={state.preview} />
            <ImportColumns preview={state.preview} />
          </div>
          <FateList preview={state.preview} />
          <WriteBar preview={state.preview} writing={state.at === 'writing'} />
        </div>
      );
  }
}

/** How far it is, and the way to stop it. */
function Working({ name }: { readonly name: string }) {
  const { stage, done, of } = progress.value;
  return (
    <div class="import-working">
      <p role="status">{stage === 'judging' ? words.judging : words.reading(name)}</p>
      <progress aria-label={words.reading(name)} {...(of > 0 ? { value: done, max: of } : {})} />
      <button type="button" class="button" disabled={stopping.value} onClick={() => void stop()}>
        {stopping.value ? words.stopping : words.stop}
      </button>
    </div>
  );
}

/** The letters in each encoding they may be in: the person sees which reads right. */
function WhichEncoding({ ask }: { readonly ask: Extract<ImportState, { at: 'encoding' }>['ask'] }) {
  return (
    <section class="import-ask" aria-labelledby="import-ask-title">
      <h2 id="import-ask-title">{words.encoding.title}</h2>
      <p>{words.encoding.text}</p>
      <ul>
        {ask.samples.map(({ encoding, lines }) => (
          <li key={encoding}>
            <pre>{lines.join('\n')}</pre>
            <button
              type="button"
              class={encoding === ask.proposed ? 'button button-strong' : 'button'}
              onClick={() => readOtherwise({ encoding })}
            >
              {words.encoding.use(words.encoding.names[encoding])}
            </button>
          </li>
        ))}
      </ul>
      <p class="soft">{words.encoding.none}</p>
    </section>
  );
}

function Written({ state }: { readonly state: Extract<ImportState, { at: 'written' }> }) {
  const { intake, added, updated, leftOut } = state.written;
  const isIn = intakes.value?.find((one) => one.id === intake)?.isIn ?? true;
  return (
    <EmptyState title={words.written.title} text={words.written.text(state.name, added, updated, leftOut)}>
      <button
        type="button"
        class="button button-strong"
        onClick={() => {
          closeImport();
          closePanel();
        }}
      >
        {words.written.toShelf}
      </button>
      <button type="button" class="button" onClick={() => void chooseShelfFile()}>
        {words.written.another}
      </button>
      <button
        type="button"
        class="text-button"
        disabled={intakeBusy.value !== null}
        onClick={() => void turnIntake(intake, isIn)}
      >
        {isIn ? `${words.written.wrong} ${words.intakes.takeBack}` : words.intakes.bringBack}
      </button>
      <p class="import-turned" role="status">
        {intakeSaid.value}
      </p>
    </EmptyState>
  );
}
