import type { Topic } from '../core/port/port.ts';

/** Who wants to know what has changed. Told after the write is on the disk, never before. */
export interface Topics {
  tell(topic: Topic): void;
  /** Calls back with every topic that changed; the returned function ends it. */
  listen(listener: (topic: Topic) => void): () => void;
}

export function makeTopics(): Topics {
  const listeners = new Set<(topic: Topic) => void>();
  return {
    tell: (topic) => {
      for (const listener of listeners) listener(topic);
    },
    listen: (listener) => {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
  };
}
