import { dayAndTime } from '../parts/day-text.ts';
import { useSignal } from '@preact/signals';
import type { Port } from '../../core/port/port.ts';
import type { BackupEntry, StartTrouble } from '../../core/port/program.ts';
import type { PortResult } from '../../core/port/result.ts';
import { startWords } from '../../core/words/main-words.ts';
import { shellWords, troubleWords } from '../../core/words/shell-words.ts';

interface ScreenProps {
  readonly trouble: StartTrouble;
  readonly port: Pick<Port, 'call'>;
  /** Loads the program again once a workbook is open. */
  readonly again: () => void;
}

/** Says why no workbook is open, where it lies, and what can be done about it from here. */
export function StartUpScreen({ trouble, port, again }: ScreenProps) {
  const busy = useSignal(false);
  const failed = useSignal('');

  const act = async (work: Promise<PortResult<unknown>>): Promise<void> => {
    busy.value = true;
    failed.value = '';
    const answer = await work;
    busy.value = false;
    if (answer.ok) again();
    else failed.value = troubleWords(answer);
  };

  return (
    <main class="start-up" aria-busy={busy.value}>
      <p class="start-up-name">{shellWords.program}</p>
      <h1>{trouble.title}</h1>
      {trouble.paragraphs.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <div>
        <h2>{startWords.lies}</h2>
        <p class="start-up-lies">{trouble.lies}</p>
      </div>
      {trouble.backups.length > 0 && (
        <Backups
          backups={trouble.backups}
          busy={busy.value}
          restore={(name) => void act(port.call('program.restore', { name }))}
        />
      )}
      {failed.value !== '' && <p role="alert">{failed.value}</p>}
      <p>
        {trouble.mayBegin ? (
          <button type="button" disabled={busy.value} onClick={() => void act(port.call('program.begin', {}))}>
            {startWords.begin}
          </button>
        ) : (
          <button type="button" onClick={again}>
            {startWords.again}
          </button>
        )}
      </p>
    </main>
  );
}

interface BackupsProps {
  readonly backups: readonly BackupEntry[];
  readonly busy: boolean;
  readonly restore: (name: string) => void;
}

function Backups({ backups, busy, restore }: BackupsProps) {
  return (
    <div>
      <h2>{startWords.backups}</h2>
      <ul class="start-up-backups">
        {backups.map(({ name, made, reason, bytes }) => (
          <li key={name}>
            <span>{startWords.backup(dayAndTime(made), reason, bytes)}</span>
            <button type="button" disabled={busy} onClick={() => restore(name)}>
              {startWords.restore}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
