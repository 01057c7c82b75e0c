import type { ProcedureInput, ProcedureName } from '../../src/core/port/port.ts';
import type { RealPort } from './real-port.ts';

/** Answers of one procedure that a test holds back: main gives each when it is asked, the window hears it when it is let go. */
export interface Held {
  /** How many are held now. */
  readonly count: () => number;
  /** Lets the n-th of them go, the oldest first where none is said. */
  readonly letGo: (at?: number) => void;
  /** From now on answers come at once again. */
  readonly end: () => void;
}

export function hold<N extends ProcedureName>(port: RealPort, name: N): Held {
  const waiting: (() => void)[] = [];
  port.instead(name, async (input: ProcedureInput<N>) => {
    const answer = await port.book.call(name, input);
    await new Promise<void>((done) => waiting.push(done));
    return answer;
  });
  return {
    count: () => waiting.length,
    letGo: (at = 0) => waiting.splice(at, 1)[0]?.(),
    end: () => {
      port.instead(name, null);
      for (const done of waiting.splice(0)) done();
    },
  };
}
