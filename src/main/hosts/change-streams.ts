import type { ServerResponse } from 'node:http';
import type { StreamLine } from '../../core/port/wire.ts';
import type { Topics } from '../topics.ts';
import { sendStatus } from './http-answers.ts';
import { SECURITY_HEADERS } from './policies.ts';

const MOST_STREAMS = 16;
const HEARTBEAT_MILLISECONDS = 15_000;

export interface ChangeStreams {
  open(response: ServerResponse): void;
  /** Called whenever a stream opens or closes, with the number still open. */
  watch(changed: (open: number) => void): void;
  end(): void;
}

/** Open streams of changes: one JSON line for each change, an empty object now and then to find those that are gone. */
export function makeStreams(topics: Topics): ChangeStreams {
  const open = new Set<ServerResponse>();
  let changed: (open: number) => void = () => {};
  const send = (line: StreamLine): void => {
    for (const response of open) response.write(`${JSON.stringify(line)}\n`);
  };
  const forget = topics.listen((topic) => send({ topic }));
  const heartbeat = setInterval(() => send({}), HEARTBEAT_MILLISECONDS);
  heartbeat.unref();
  return {
    open: (response) => {
      if (open.size >= MOST_STREAMS) return sendStatus(response, 503);
      response.writeHead(200, { ...SECURITY_HEADERS, 'content-type': 'application/x-ndjson; charset=utf-8' });
      response.write('{}\n');
      open.add(response);
      response.once('close', () => {
        open.delete(response);
        changed(open.size);
      });
      changed(open.size);
    },
    watch: (listener) => {
      changed = listener;
    },
    end: () => {
      forget();
      clearInterval(heartbeat);
      for (const response of open) response.end();
    },
  };
}
