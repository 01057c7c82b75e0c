import type { Notice } from '../../core/words/notice.ts';

type Level = Notice['level'];

/** Shape and tone of each level; the word is in the sentence itself. */
const MARKS: Readonly<Record<Level, { readonly tone: string; readonly shape: string }>> = {
  error: { tone: 'accent', shape: 'M6 .8 11.2 6 6 11.2.8 6Z' },
  caution: { tone: 'accent', shape: 'M6 1.2 11.2 10.8H.8Z' },
  short: { tone: 'accent', shape: 'M1 2.5h10v3H1zM1 7.5h5v3H1z' },
  assumption: { tone: 'loss', shape: 'M6 1a5 5 0 1 1 0 10A5 5 0 1 1 6 1Zm0 2a3 3 0 1 0 0 6 3 3 0 1 0 0-6Z' },
  note: { tone: 'quiet', shape: 'M6 3.5a2.5 2.5 0 1 1 0 5 2.5 2.5 0 1 1 0-5Z' },
};

export function NoticeMark({ level }: { readonly level: Level }) {
  const mark = MARKS[level];
  return (
    <svg class={`notice-mark mark-fill tone-${mark.tone}`} viewBox="0 0 12 12" aria-hidden="true">
      <path d={mark.shape} fill-rule="evenodd" />
    </svg>
  );
}

interface NoticesProps {
  readonly notices: readonly { readonly notice: Notice; readonly words: string; readonly level: string }[];
  /** Goes to where the notice belongs. */
  readonly onGo: (notice: Notice) => void;
}

/** Everything the program wants to say, each line a way to its place. */
export function Notices({ notices, onGo }: NoticesProps) {
  return (
    <ul class="notices">
      {notices.map(({ notice, words, level }, index) => (
        <li key={`${notice.code} ${index}`}>
          <button type="button" class="notice" onClick={() => onGo(notice)}>
            <NoticeMark level={notice.level} />
            <span>
              <span class="unseen">{level}: </span>
              {words}
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}
