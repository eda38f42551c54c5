// What this phone keeps: acts not sent yet, and the pages seen last. IndexedDB is there on plain http too.
let opened;

function open() {
  opened ??= new Promise((done, fail) => {
    const asked = indexedDB.open("spadework", 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore("unsent", { keyPath: "key" });
      asked.result.createObjectStore("pages", { keyPath: "address" });
    };
    asked.onsuccess = () => {
      asked.result.onversionchange = () => { asked.result.close(); opened = undefined; };
      done(asked.result);
    };
    asked.onerror = asked.onblocked = () => { opened = undefined; fail(asked.error || new Error("closed")); };
  });
  return opened;
}

/** Do something with one store, all or nothing; gives what `act` hands to its second argument. */
export async function run(name, mode, act) {
  const base = await open();
  return new Promise((done, fail) => {
    const whole = base.transaction(name, mode, { durability: "strict" });
    let found;
    whole.oncomplete = () => done(found);
    whole.onerror = whole.onabort = () => fail(whole.error);
    act(whole.objectStore(name), (value) => { found = value; });
  });
}

export const every = (name) => run(name, "readonly", (store, give) => { store.getAll().onsuccess = (event) => give(event.target.result); });
export const one = (name, key) => run(name, "readonly", (store, give) => { store.get(key).onsuccess = (event) => give(event.target.result); });
export const put = (name, item) => run(name, "readwrite", (store) => { store.put(item); });
export const drop = (name, key) => run(name, "readwrite", (store) => { store.delete(key); });
