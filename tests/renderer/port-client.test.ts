import { describe, expect, test, vi } from 'vitest';
import { CALL_PATH, SUBSCRIBE_PATH } from '../../src/core/port/wire.ts';
import { httpPort, readLines, type Surroundings, takeToken } from '../../src/renderer/port-client.ts';
import { until } from './until.ts';

function surroundings(hash: string, fetch: Surroundings['fetch'] = () => Promise.reject(new Error('no net'))) {
  const kept = new Map<string, string>();
  const replaced: (string | URL | null | undefined)[] = [];
  const around: Surroundings = {
    fetch,
    location: { hash, pathname: '/', search: '' },
    history: { replaceState: (_data, _title, url) => replaced.push(url) },
    sessionStorage: {
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => kept.set(key, value),
    },
    wait: () => new Promise(() => {}),
  };
  return { around, kept, replaced };
}

const json = (value: unknown, status = 200): Response => new Response(JSON.stringify(value), { status });

describe('the key in the address', () => {
  test('is taken, kept for a reload and removed from the address at once', () => {
    const { around, replaced } = surroundings('#token=abc-DEF_1');
    expect(takeToken(around)).toBe('abc-DEF_1');
    expect(replaced).toEqual(['/']);
    expect(takeToken({ ...around, location: { ...around.location, hash: '#plan' } })).toBe('abc-DEF_1');
  });

  test('there is none without one', () => {
    const { around, replaced } = surroundings('#plan');
    expect(takeToken(around)).toBeNull();
    expect(replaced).toEqual([]);
  });
});

describe('a call', () => {
  test('is one POST of JSON with the key as bearer', async () => {
    const fetch = vi.fn<Surroundings['fetch']>(() => Promise.resolve(json({ ok: true, value: [] })));
    const port = httpPort('key', surroundings('', fetch).around, () => {});
    expect(await port.call('plans.list', {})).toEqual({ ok: true, value: [] });
    const [path, init] = fetch.mock.calls[0] ?? [];
    expect(path).toBe(`${CALL_PATH}plans.list`);
    expect(init).toMatchObject({ method: 'POST', body: '{}' });
    expect(new Headers(init?.headers).get('authorization')).toBe('Bearer key');
    expect(new Headers(init?.headers).get('content-type')).toBe('application/json');
  });

  test('gives a refusal on as it came, whatever the status', async () => {
    const refusal = { ok: false, code: 'conflict', detail: 'The plan has been changed meanwhile.' };
    const port = httpPort('key', surroundings('', () => Promise.resolve(json(refusal, 409))).around, () => {});
    expect(await port.call('plans.read', { id: 1 })).toEqual(refusal);
  });

  test('that nobody answers is a result, and the connection is lost until something answers', async () => {
    const states: string[] = [];
    let net = false;
    const fetch: Surroundings['fetch'] = () =>
      net ? Promise.resolve(json({ ok: true, value: [] })) : Promise.reject(new TypeError('failed to fetch'));
    const port = httpPort('key', surroundings('', fetch).around, (state) => states.push(state));
    expect(await port.call('plans.list', {})).toMatchObject({ ok: false, code: 'not here' });
    net = true;
    await port.call('plans.list', {});
    expect(states).toEqual(['lost', 'open']);
  });

  test('whose answer is no result is an error, not a value', async () => {
    const port = httpPort('key', surroundings('', () => Promise.resolve(json('hello'))).around, () => {});
    expect(await port.call('plans.list', {})).toMatchObject({ ok: false, code: 'internal' });
  });
});

describe('the stream of changes', () => {
  /** A fetch whose stream the test writes to and ends. */
  function streaming() {
    const streams: ReadableStreamDefaultController<Uint8Array>[] = [];
    const fetch: Surroundings['fetch'] = () => {
      const body = new ReadableStream<Uint8Array>({ start: (controller) => void streams.push(controller) });
      return Promise.resolve(new Response(body));
    };
    const write = (text: string): void => streams.at(-1)?.enqueue(new TextEncoder().encode(text));
    return { streams, fetch: vi.fn(fetch), write };
  }

  test('tells each topic its own changes, however the bytes are cut', async () => {
    const { fetch, write } = streaming();
    const port = httpPort('key', surroundings('', fetch).around, () => {});
    const told: string[] = [];
    port.subscribe('shelf', () => told.push('shelf'));
    port.subscribe('plans', () => told.push('plans'));
    await until(() => expect(fetch).toHaveBeenCalledTimes(1));
    expect(fetch.mock.calls[0]?.[0]).toBe(SUBSCRIBE_PATH);
    write('{}\n{"topic":"pl');
    write('ans"}\n{"topic":"routes"}\n{"topic":"shelf"}\n');
    await until(() => expect(told).toEqual(['plans', 'shelf']));
  });

  test('is opened again after a break, with growing pauses, and the loss is shown meanwhile', async () => {
    const { streams, fetch } = streaming();
    const waits: number[] = [];
    const states: string[] = [];
    let goOn = (): void => {};
    const around: Surroundings = {
      ...surroundings('', fetch).around,
      wait: (milliseconds) => {
        waits.push(milliseconds);
        return new Promise((done) => {
          goOn = done;
        });
      },
    };
    const port = httpPort('key', around, (state) => states.push(state));
    port.subscribe('shelf', () => {});
    await until(() => expect(streams).toHaveLength(1));
    fetch.mockImplementation(() => Promise.reject(new TypeError('gone')));
    streams[0]?.close();
    await until(() => expect(waits).toHaveLength(1));
    goOn();
    await until(() => expect(waits).toHaveLength(2));
    expect(waits[1]).toBeGreaterThan(waits[0] ?? Number.NaN);
    expect(states).toEqual(['open', 'lost', 'lost']);
  });

  test('after a break everything may have changed, and each is asked for again; the first opening says nothing', async () => {
    const { streams, fetch } = streaming();
    let goOn = (): void => {};
    const wait = (): Promise<void> =>
      new Promise((done) => {
        goOn = done;
      });
    const port = httpPort('key', { ...surroundings('', fetch).around, wait }, () => {});
    const told: string[] = [];
    for (const topic of ['shelf', 'plans', 'program'] as const) port.subscribe(topic, () => told.push(topic));
    await until(() => expect(streams).toHaveLength(1));
    expect(told).toEqual([]);
    streams[0]?.close();
    await until(() => {
      goOn();
      expect(streams).toHaveLength(2);
    });
    await until(() => expect(told).toEqual(['shelf', 'plans']));
  });

  test('a listener that has ended is told nothing', async () => {
    const { fetch, write } = streaming();
    const port = httpPort('key', surroundings('', fetch).around, () => {});
    const told: string[] = [];
    const end = port.subscribe('shelf', () => told.push('ended'));
    port.subscribe('shelf', () => told.push('listening'));
    await until(() => expect(fetch).toHaveBeenCalled());
    end();
    write('{"topic":"shelf"}\n');
    await until(() => expect(told).toEqual(['listening']));
  });

  test('lines are whole and keep characters that were cut in two', async () => {
    const bytes = new TextEncoder().encode('{"µ":1}\n\n{"b":2}\n');
    const body = new ReadableStream<Uint8Array>({
      start(controller) {
        for (const byte of bytes) controller.enqueue(Uint8Array.of(byte));
        controller.close();
      },
    });
    const lines: string[] = [];
    await readLines(body, (line) => lines.push(line));
    expect(lines).toEqual(['{"µ":1}', '{"b":2}']);
  });
});
