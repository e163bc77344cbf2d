import { openDB, type IDBPDatabase } from 'idb';

/** Where designs are kept in this browser. Every call may fail: storage can be full, blocked or gone. */
export interface Shelf {
  put(key: string, text: string): Promise<void>;
  get(key: string): Promise<string | null>;
}

const DATABASE = 'panelwright';
const STORE = 'designs';

/** Longer than any save takes, ms: a store that has not answered by then is not going to. */
const DEADLINE = 6000;

/** Give up on a store that never answers, rather than leave people waiting before an empty page. */
function inTime<T>(answer: Promise<T>, deadline: number): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(
      () => reject(new DOMException('the browser’s storage does not answer.', 'TimeoutError')),
      deadline,
    );
    answer.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

/** A shelf in the browser's own database. Opened when first used; a failed opening is tried again next time. */
export function browserShelf(deadline = DEADLINE): Shelf {
  let opening: Promise<IDBPDatabase> | null = null;
  const open = async (): Promise<IDBPDatabase> => {
    // some browsers hide it altogether where pages may keep nothing
    if (!globalThis.indexedDB) throw new DOMException('there is no storage', 'SecurityError');
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
  const put = async (key: string, text: string): Promise<void> => {
    const tx = (await open()).transaction(STORE, 'readwrite', { durability: 'strict' });
    await Promise.all([tx.store.put(text, key), tx.done]);
  };
  const get = async (key: string): Promise<string | null> => {
    const found: unknown = await (await open()).get(STORE, key);
    return typeof found === 'string' ? found : null;
  };
  return {
    put: (key, text) => inTime(put(key, text), deadline),
    get: (key) => inTime(get(key), deadline),
  };
}
