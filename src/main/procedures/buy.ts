import { strengthDoubt } from '../../core/matter/strength-doubt.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { materialWords } from '../../core/words/material-words.ts';
import { expiringBottles, traceLot } from '../store/lot-trace.ts';
import { cancelOrder, FINISHED_SHOWN, placeOrders, readOrders, receiveOrder, undoOrderEvent } from '../store/orders.ts';
import { packsOf, putPack, removePack } from '../store/packs.ts';
import { readSuppliers, setSupplier } from '../store/suppliers.ts';
import { Refusal } from '../store/refusal.ts';
import type { Procedures } from './context.ts';
import { indexed } from './read-file.ts';

type BuyName = Extract<keyof Procedures, `packs.${string}` | `suppliers.${string}` | `orders.${string}` | `lots.${string}`>;

export const buyProcedures: Procedures<BuyName> = {
  'packs.list': ({ keeper }, { materials }) => packsOf(keeper.database(), materials),

  'packs.add': ({ keeper, reference }, { material, pack }) => {
    const doubt = pack.form ? strengthDoubt(material, pack.form, indexed(reference())) : null;
    if (doubt) throw new Refusal('invalid input', mainWords.wrong(materialWords.strengthDoubt(doubt)));
    const database = keeper.database();
    return { id: database.write(() => putPack(database, pack, material)) };
  },

  'packs.remove': ({ keeper }, { id }) => {
    const database = keeper.database();
    database.write(() => removePack(database, id));
    return { id };
  },

  'suppliers.list': ({ keeper }) => readSuppliers(keeper.database()),

  'suppliers.set': ({ keeper }, { name, leastOrder }) => {
    if (name.trim() === '') throw new Refusal('invalid input', mainWords.supplierNamed);
    const database = keeper.database();
    database.write(() => setSupplier(database, name, leastOrder));
    return { name };
  },

  'orders.list': ({ keeper }, { all }) => readOrders(keeper.database(), all ? FINISHED_SHOWN : 0),

  'orders.place': ({ keeper, clock }, input) => {
    const database = keeper.database();
    return { ids: database.write(() => placeOrders(database, input, clock.now())) };
  },

  'orders.receive': ({ keeper, clock }, input) => {
    const database = keeper.database();
    return { bottles: database.write(() => receiveOrder(database, input, clock.today(), clock.now())) };
  },

  'orders.cancel': ({ keeper, clock }, { id, count, reason }) => {
    const database = keeper.database();
    database.write(() => cancelOrder(database, id, count, reason.trim(), clock.now()));
    return { id };
  },

  'orders.undo': ({ keeper, clock }, { event }) => {
    const database = keeper.database();
    return { bottles: database.write(() => undoOrderEvent(database, event, clock.now())) };
  },

  'lots.trace': ({ keeper }, { lot }) => traceLot(keeper.database(), lot),

  'lots.expiring': ({ keeper, clock }, { days }) => {
    const until = new Date(`${clock.today()}T00:00:00Z`);
    until.setUTCDate(until.getUTCDate() + days);
    return expiringBottles(keeper.database(), until.toISOString().slice(0, 10));
  },
};
