import type { Notice } from '../../core/words/notice.ts';
import { LOOKS } from './status.tsx';

interface Mark {
  readonly tone: string;
  readonly shape: string;
}

/** Shape and tone of each level; the word is in the sentence itself. */
const LEVELS: Readonly<Record<Notice['level'], Mark>> = {
  error: { tone: 'accent', shape: 'M1 1h10v10H1ZM3.2 5.1v1.8h5.6V5.1Z' },
  caution: { tone: 'accent', shape: 'M6 .8 11.6 11H.4ZM5.3 4.4v3h1.4v-3ZM5.3 8.4v1.4h1.4V8.4Z' },
  short: { tone: 'accent', shape: 'M6 1.5 11 10.5H1Z' },
  assumption: { tone: 'loss', shape: 'M6 1a5 5 0 1 1 0 10A5 5 0 1 1 6 1Zm0 2a3 3 0 1 0 0 6 3 3 0 1 0 0-6Z' },
  note: { tone: 'quiet', shape: 'M6 3.5a2.5 2.5 0 1 1 0 5 2.5 2.5 0 1 1 0-5Z' },
};

/** Notices that say a bottle's state wear the shape of that state. */
const CODES: Readonly<Record<string, Mark>> = {
  'make up': { tone: 'loss', shape: LOOKS['make up'].shape },
  'out of date': { tone: 'accent', shape: LOOKS['out of date'].shape },
};

export function NoticeMark({ notice }: { readonly notice: Pick<Notice, 'level' | 'code'> }) {
  const mark = CODES[notice.code] ?? LEVELS[notice.level];
  return (
    <svg class={`notice-mark mark-fill tone-${mark.tone}`} viewBox="0 0 12 12" aria-hidden="true">
      <path d={mark.shape} fill-rule="evenodd" />
    </svg>
  );
}

/** A notice in words: its level, where it belongs (e.g. "Step 2: "), and its sentence. */
export interface NoticeLine {
  readonly notice: Notice;
  readonly level: string;
  readonly where: string;
  readonly words: string;
}

interface NoticesProps {
  readonly notices: readonly NoticeLine[];
  /** Goes to where the notice belongs. */
  readonly onGo: (notice: Notice) => void;
}

/** Everything the program wants to say, each line a way to its place. */
export function Notices({ notices, onGo }: NoticesProps) {
  return (
    <ul class="notices">
      {notices.map(({ notice, where, words, level }, index) => (
        <li key={`${notice.code} ${index}`}>
          <button type="button" class="notice" onClick={() => onGo(notice)}>
            <NoticeMark notice={notice} />
            <span>
              <span class="unseen">{level}: </span>
              {where}
              {words}
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}
