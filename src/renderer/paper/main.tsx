import { render } from 'preact';
import * as z from 'zod/mini';
import type { Port } from '../../core/port/port.ts';
import { READY } from '../../core/port/wire.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { findPort } from '../find-port.ts';
import { labelWords } from '../../core/words/label-words.ts';
import { askedPaper, openIssued, openPreview, type Opened } from './open-paper.ts';
import { fitLabels } from './fit-labels.ts';
import { pageRules } from './page-rules.ts';
import { PaperView } from './paper-view.tsx';
import { PreviewBar, tooMuch } from './preview-bar.tsx';

// zod tries eval to compile its schemas, which the page's policy forbids and reports.
z.config({ jitless: true });

const root = document.getElementById('paper');
if (root) void begin(root);

async function begin(root: HTMLElement): Promise<void> {
  const asked = askedPaper(location.hash);
  const port = findPort();
  // The key leaves the address; the paper stays in it, so that a reload works.
  if (asked !== null) history.replaceState(null, '', `#paper=${asked}`);
  const opened = await open(asked, port);
  if (!opened.ok) {
    render(<Trouble words={opened.words} />, root);
    document.documentElement.dataset[READY.name] = READY.failed;
    return;
  }
  const { paper, state } = opened.shown;
  document.title = words.screen.title(paper.title);
  document.documentElement.dataset['size'] = paper.size;
  addRules(pageRules(paper, state.short));
  render(
    <>
      <PreviewBar kind={paper.kind} state={state} port={port} />
      <main>
        <PaperView paper={paper} state={state} />
      </main>
    </>,
    root,
  );
  // Laid out once, so that the page knows which letters it lacks and fetches them.
  void root.offsetHeight;
  await document.fonts.ready;
  const over = fitLabels(root);
  if (over.length > 0) tooMuch.value = labelWords.tooMuch(over.join(', '));
  // A stream that stays open tells the program that this window is still there.
  port?.subscribe('plans', () => {});
  // Reading a size lays the whole page out at once; waiting for a frame would not, where no frame is ever drawn.
  void root.offsetHeight;
  document.documentElement.dataset[READY.name] = READY.value;
}

async function open(asked: number | 'preview' | null, port: Port | null): Promise<Opened> {
  if (asked === 'preview') return openPreview(sessionStorage);
  if (asked === null || !port) return { ok: false, words: words.screen.missing };
  return openIssued(asked, port);
}

/** Rules go in as an object, not as an inline style, which the page's policy forbids. */
function addRules(css: string): void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(css);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}

function Trouble({ words: why }: { readonly words: string }) {
  return (
    <main class="trouble">
      <h1>{words.screen.cannot}</h1>
      <p role="alert">{why}</p>
      <p>
        <a href="./index.html">{words.screen.back}</a>
      </p>
    </main>
  );
}
