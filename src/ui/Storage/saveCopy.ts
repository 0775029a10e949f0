import { packOf } from "../../jobs/pack/backup.ts";
import type { Copy, Store } from "../../jobs/store/store.ts";
import { handOver } from "../Packs/handOver.ts";

/** Hands a copy that was put aside over as a pack, with those of its pictures that are still here. */
export async function saveCopy(store: Store, { made, records, events }: Copy): Promise<void> {
  const text = await packOf(store, records, events, made);
  handOver(`latchline-copy-${made.slice(0, 16).replace(":", "")}.json`, text);
}
