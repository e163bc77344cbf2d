import { openDB, type IDBPDatabase } from 'idb';

/** Where designs are kept in this browser. Every call may fail: storage can be full, blocked or gone. */
export interface Shelf {
  put(key: string, text: string): Promise<void>;
  get(key: string): Promise<string | null>;
}

const DATABASE = 'panelwright';
const STORE = 'designs';

/** A shelf in the browser's own database. Opened when first used; a failed opening is tried again next time. */
export function browserShelf(): Shelf {
  let opening: Promise<IDBPDatabase> | null = null;
  const open = (): Promise<IDBPDatabase> => {
    opening ??= openDB(DATABASE, 1, {
      upgrade: (db) => void db.createObjectStore(STORE),
      terminated: () => {
        opening = null;
      },
    }).catch((failure: unknown) => {
      opening = null;
      throw failure;
    });
    return opening;
  };
  return {
    put: async (key, text) => {
      const tx = (await open()).transaction(STORE, 'readwrite', { durability: 'strict' });
      await Promise.all([tx.store.put(text, key), tx.done]);
    },
    get: async (key) => {
      const found: unknown = await (await open()).get(STORE, key);
      return typeof found === 'string' ? found : null;
    },
  };
}
