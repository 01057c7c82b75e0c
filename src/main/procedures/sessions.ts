import { createSession, listSessions, saveSession } from '../store/sessions.ts';
import type { Procedures } from './context.ts';

type SessionName = Extract<keyof Procedures, `sessions.${string}`>;

export const sessionProcedures: Procedures<SessionName> = {
  'sessions.list': ({ keeper }, { planId }) => listSessions(keeper.database(), planId),

  'sessions.create': ({ keeper, clock }, { planId, session }) => {
    const database = keeper.database();
    return database.write(() => createSession(database, planId, session, clock.now()));
  },

  'sessions.save': ({ keeper, clock }, input) => {
    const database = keeper.database();
    return database.write(() => saveSession(database, input, clock.now()));
  },
};
