/**
 * A pack that another app shares with this one: the service worker takes it in and keeps it, since no page may be
 * open, and the next page takes it from there.
 */
export const SHARE_ADDRESS = "/shared-pack";
/** of the form that the browser sends */
export const SHARE_FIELD = "pack";
const KEPT_IN = "latchline-shared-packs";
const NAME_HEADER = "X-File-Name";

/** Keeps what was shared until a page takes it. @returns how many files there were */
export async function keepShared(form: FormData): Promise<number> {
  const files = form.getAll(SHARE_FIELD).filter((each) => each instanceof File);
  const kept = await caches.open(KEPT_IN);
  for (const [index, file] of files.entries()) {
    const headers = { [NAME_HEADER]: encodeURIComponent(file.name) };
    // The address tells the order in which they came.
    const place = `${SHARE_ADDRESS}/${Date.now()}-${String(index).padStart(4, "0")}`;
    await kept.put(place, new Response(file, { headers }));
  }
  return files.length;
}

/** What was shared and not taken yet, in the order it came; it is kept no longer. */
export async function takeShared(): Promise<File[]> {
  if (!("caches" in globalThis) || !(await caches.has(KEPT_IN))) return [];
  const kept = await caches.open(KEPT_IN);
  const places = [...(await kept.keys())].sort((a, b) => (a.url < b.url ? -1 : 1));
  const files: File[] = [];
  for (const place of places) {
    const response = await kept.match(place);
    if (!response) continue;
    const name = decodeURIComponent(response.headers.get(NAME_HEADER) ?? "");
    files.push(new File([await response.blob()], name));
  }
  await caches.delete(KEPT_IN);
  return files;
}
