import { useSyncExternalStore } from "react";
import { LibraryIndex, type LibraryView } from "../../jobs/library/libraryIndex.ts";
import type { Store } from "../../jobs/store/store.ts";
import { useStore } from "../storeContext.ts";

/** Read once for as long as the app is open: whoever comes back to the library does not wait again. */
const indexes = new WeakMap<Store, LibraryIndex>();

export function useLibraryIndex(): LibraryIndex {
  const store = useStore();
  const index = indexes.get(store) ?? new LibraryIndex(store);
  indexes.set(store, index);
  return index;
}

/** The library as it is looked up in, live. */
export function useLibraryView(): LibraryView {
  const index = useLibraryIndex();
  return useSyncExternalStore(index.subscribe, index.view);
}
