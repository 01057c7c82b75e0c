// Stands in for core/route/read-route.ts and core/shelf/read-shelf.ts until they land.
import * as z from 'zod/mini';
import type { FileProblem } from '../core/port/result.ts';
import { Route } from '../core/route/route.ts';
import { Shelf } from '../core/shelf/shelf.ts';

type Failed = { readonly ok: false; readonly problems: readonly FileProblem[] };

export function readRoute(text: string): { readonly ok: true; readonly route: Route } | Failed {
  const read = readAs(Route, text);
  return read.ok ? { ok: true, route: read.value } : read;
}

export function readShelf(text: string): { readonly ok: true; readonly shelf: Shelf } | Failed {
  const read = readAs(Shelf, text);
  return read.ok ? { ok: true, shelf: read.value } : read;
}

function readAs<T>(schema: z.ZodMiniType<T>, text: string): { readonly ok: true; readonly value: T } | Failed {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return { ok: false, problems: [{ at: '', words: 'the text is not JSON' }] };
  }
  const parsed = z.safeParse(schema, data);
  if (parsed.success) return { ok: true, value: parsed.data };
  return {
    ok: false,
    problems: parsed.error.issues.map(({ path, message }) => ({
      at: path.map((part) => `/${String(part)}`).join(''),
      words: message,
    })),
  };
}
