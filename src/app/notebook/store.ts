/** Where the browser keeps text: each change is on the disk when its promise is kept. */
export interface TextStore<T> {
  entries(): Promise<readonly (readonly [key: string, value: T])[]>;
  /** Looks at what a key has and changes it in one step, which nobody else comes between. Gives what it had. */
  change(key: string, decide: (had: T | undefined) => Change<T>): Promise<T | undefined>;
}

export type Change<T> = { readonly kind: "put"; readonly value: T } | { readonly kind: "delete" } | { readonly kind: "keep" };

const database = "rotaline-texts";
export const stores = ["documents", "drafts", "copies"] as const;
export type StoreName = (typeof stores)[number];

/** A store of this browser; one in memory, which says so by `lasts`, where the browser keeps nothing for this page. */
export async function openStore<T>(
  name: StoreName,
  isValue: (value: unknown) => value is T,
): Promise<{ readonly store: TextStore<T>; readonly lasts: boolean }> {
  try {
    return { store: new BrowserStore(await opened(), name, isValue), lasts: true };
  } catch {
    return { store: new MemoryStore(), lasts: false };
  }
}

let connection: Promise<IDBDatabase> | null = null;

function opened(): Promise<IDBDatabase> {
  connection ??= new Promise((done, failed) => {
    const request = indexedDB.open(database, 1);
    request.onupgradeneeded = () => stores.forEach((store) => request.result.createObjectStore(store));
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error("no database"));
    request.onblocked = () => failed(new Error("blocked"));
  });
  return connection;
}

/** In the browser's database. `strict`: the browser flushes it before it says that it is done; its other storage waits for seconds. */
class BrowserStore<T> implements TextStore<T> {
  constructor(
    private readonly base: IDBDatabase,
    private readonly name: StoreName,
    private readonly isValue: (value: unknown) => value is T,
  ) {}

  entries(): Promise<readonly (readonly [string, T])[]> {
    return new Promise((done, failed) => {
      const store = this.base.transaction(this.name).objectStore(this.name);
      const [keys, values] = [store.getAllKeys(), store.getAll()];
      store.transaction.oncomplete = () =>
        done(
          keys.result.flatMap((key, at) => {
            const value: unknown = values.result[at];
            return typeof key === "string" && this.isValue(value) ? [[key, value] as const] : [];
          }),
        );
      store.transaction.onabort = () => failed(store.transaction.error);
    });
  }

  change(key: string, decide: (had: T | undefined) => Change<T>): Promise<T | undefined> {
    return new Promise((done, failed) => {
      const transaction = this.base.transaction(this.name, "readwrite", { durability: "strict" });
      const store = transaction.objectStore(this.name);
      let had: T | undefined;
      const asked = store.get(key);
      asked.onsuccess = () => {
        const value: unknown = asked.result;
        had = this.isValue(value) ? value : undefined;
        const change = decide(had);
        try {
          if (change.kind === "put") store.put(change.value, key);
          else if (change.kind === "delete") store.delete(key);
        } catch {
          transaction.abort();
        }
      };
      transaction.oncomplete = () => done(had);
      transaction.onabort = () => failed(transaction.error ?? new Error("aborted"));
      transaction.onerror = () => failed(transaction.error ?? new Error("failed"));
    });
  }
}

/** As long as the page is open. */
export class MemoryStore<T> implements TextStore<T> {
  private readonly kept = new Map<string, T>();

  entries(): Promise<readonly (readonly [string, T])[]> {
    return Promise.resolve([...this.kept]);
  }

  change(key: string, decide: (had: T | undefined) => Change<T>): Promise<T | undefined> {
    const had = this.kept.get(key);
    const change = decide(had);
    if (change.kind === "put") this.kept.set(key, change.value);
    else if (change.kind === "delete") this.kept.delete(key);
    return Promise.resolve(had);
  }
}
