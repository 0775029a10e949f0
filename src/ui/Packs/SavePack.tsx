import { useState } from "react";
import { useStore } from "../storeContext.ts";

/** One file with everything another tablet needs for this job, its log and pictures included. */
export function SavePack({ job }: { readonly job: string }) {
  const store = useStore();
  const [said, setSaid] = useState("");
  const save = async () => {
    try {
      const { savePack } = await import("./packFile.ts");
      setSaid(`${await savePack(store, job)} handed to the browser's downloads.`);
    } catch (error) {
      setSaid(`The pack could not be made: ${(error as Error).message}.`);
    }
  };
  return (
    <>
      <button type="button" className="button" onClick={() => void save()}>
        Save a pack
      </button>
      {said && (
        <span className="small" role="status">
          {said}
        </span>
      )}
    </>
  );
}
