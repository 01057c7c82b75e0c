import { useRef } from 'preact/hooks';
import { importScreenWords as words } from '../../../../core/words/shelf-import-screen-words.ts';
import { shelfWords } from '../../../../core/words/shelf-words.ts';
import { panel } from '../shelf-store.ts';
import { chooseShelfFile } from './choose-shelf-file.ts';
import { type ExportKind, exportShelf } from './export-shelf.ts';

const KINDS: readonly ExportKind[] = ['csv', 'xlsx', 'json'];

/** A file in, the shelf out. */
export function FileMenu() {
  const menu = useRef<HTMLDivElement>(null);
  return (
    <>
      <button type="button" class="text-button" onClick={() => void chooseShelfFile()}>
        {shelfWords.importFile}
      </button>
      <button type="button" class="text-button" popoverTarget="shelf-export">
        {words.export.button}
      </button>
      <div ref={menu} id="shelf-export" popover="auto" class="file-menu" role="group" aria-label={words.export.button}>
        {KINDS.map((kind) => (
          <button
            key={kind}
            type="button"
            class="text-button"
            onClick={() => {
              menu.current?.hidePopover();
              void exportShelf(kind);
            }}
          >
            {words.export[kind]}
          </button>
        ))}
        <button
          type="button"
          class="text-button file-menu-last"
          onClick={() => {
            menu.current?.hidePopover();
            panel.value = { show: 'intakes' };
          }}
        >
          {words.intakes.open}
        </button>
      </div>
    </>
  );
}
