import type { ComponentChildren } from 'preact';
import { scanWords } from '../../core/words/scan-words.ts';
import { shellWords } from '../../core/words/shell-words.ts';
import { weighWords } from '../../core/words/weigh-words.ts';
import { FirstLook } from './first-look.tsx';
import { connection } from '../state/connection.ts';
import { brokenRuns } from '../state/run-store.ts';
import { scanSaid } from '../state/scan.ts';
import { keepMine, saveAgain, saveTrouble, takeOther } from '../state/plan-store.ts';

/** What cannot wait for its place: a lost connection, a save that failed. Never covers the work. */
export function Banners() {
  return (
    <div class="banners" role="status">
      {connection.value === 'lost' && <Banner words={shellWords.lost} />}
      <SaveBanner />
      <BrokenRuns />
      {scanSaid.value !== '' && (
        <Banner words={scanSaid.value}>
          <BannerButton
            words={scanWords.close}
            onClick={() => {
              scanSaid.value = '';
            }}
          />
        </Banner>
      )}
      <FirstLook />
    </div>
  );
}

function SaveBanner() {
  const trouble = saveTrouble.value;
  if (!trouble) return null;
  if (trouble.kind === 'failed') {
    // A lost connection already says it, and saves by itself when it is back.
    if (connection.value === 'lost') return null;
    return (
      <Banner words={trouble.words}>
        <BannerButton words={shellWords.saveAgain} onClick={saveAgain} />
      </Banner>
    );
  }
  return (
    <Banner words={shellWords.conflict}>
      <BannerButton words={shellWords.keepMine} onClick={() => void keepMine()} />
      <BannerButton words={shellWords.takeOther} onClick={() => void takeOther()} />
    </Banner>
  );
}

/** A record that no longer fits its chain is said as soon as the workbook is open, with where. */
function BrokenRuns() {
  const broken = brokenRuns.value;
  if (broken.length === 0) return null;
  const list = broken
    .map(({ id, sheet, entry, bottle }) =>
      bottle === undefined ? weighWords.brokenOne(id, sheet, entry) : weighWords.brokenLineOf(id, sheet, entry, bottle),
    )
    .join(', ');
  return <Banner words={weighWords.brokenBanner(list)} />;
}

function Banner({ words, children }: { readonly words: string; readonly children?: ComponentChildren }) {
  return (
    <div class="banner">
      <svg class="banner-mark" viewBox="0 0 12 12" aria-hidden="true">
        <path d="M6 1 11.5 11H.5Z" />
      </svg>
      <p>{words}</p>
      {children}
    </div>
  );
}

function BannerButton({ words, onClick }: { readonly words: string; readonly onClick: () => void }) {
  return (
    <button type="button" class="button" onClick={onClick}>
      {words}
    </button>
  );
}
