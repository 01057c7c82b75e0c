import { keepAcknowledgement, listAcknowledgements } from '../store/acknowledgements.ts';
import type { Procedures } from './context.ts';

type CautionName = Extract<keyof Procedures, `cautions.${string}`>;

export const cautionProcedures: Procedures<CautionName> = {
  'cautions.acknowledge': ({ keeper, clock }, { planId, acknowledgement }) => {
    const database = keeper.database();
    return database.write(() => keepAcknowledgement(database, planId, acknowledgement, clock.now()));
  },

  'cautions.acknowledged': ({ keeper }, { planId }) => listAcknowledgements(keeper.database(), planId),
};
