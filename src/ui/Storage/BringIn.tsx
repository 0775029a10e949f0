import { type ChangeEvent, useState } from "react";
import { arrivalOf, previewPack } from "../../jobs/pack/arrival.ts";
import { readPack } from "../../jobs/pack/pack.ts";
import { notImported } from "../Packs/notImported.ts";
import { useStore } from "../storeContext.ts";

interface BringInProps {
  readonly label: string;
  /** the one next action of its screen */
  readonly next?: boolean;
  /** @param broken logs that do not hold, in words, brought in as they are */
  readonly onBrought: (file: string, broken: readonly string[]) => void;
}

/**
 * Brings a backup in: the whole file is read and checked, what is here is put aside, then everything is written in
 * one transaction or nothing of it.
 */
export function BringIn({ label, next = false, onBrought }: BringInProps) {
  const store = useStore();
  const [reading, setReading] = useState("");
  const [problem, setProblem] = useState("");

  const bring = async (file: File) => {
    const read = readPack(await file.text(), "keep");
    if (!read.ok) return `${file.name}: ${read.why}`;
    const [library, events] = await Promise.all([store.library(), store.allEvents()]);
    const preview = previewPack(read.pack, library, events);
    const copy = { made: new Date().toISOString(), why: `before ${file.name} was brought in` };
    try {
      await store.receive({ ...arrivalOf(read.pack, preview, library, "keep mine"), copy });
    } catch (error) {
      return notImported(error);
    }
    onBrought(file.name, read.broken);
    return "";
  };

  const choose = async ({ currentTarget: input }: ChangeEvent<HTMLInputElement>) => {
    const [file] = input.files ?? [];
    if (!file) return;
    setProblem("");
    setReading(file.name);
    const said = await bring(file).catch(
      (error: unknown) =>
        `${file.name} could not be read: ${(error as Error).message}. Choose it again.`,
    );
    // The same file may be chosen again once it is mended.
    input.value = "";
    setReading("");
    setProblem(said);
  };

  return (
    <>
      <label className={next ? "button next storage-file" : "button storage-file"}>
        {reading ? `Reading and checking ${reading}…` : label}
        <input
          type="file"
          accept=".json,application/json"
          disabled={reading !== ""}
          onChange={(event) => void choose(event)}
        />
      </label>
      {problem && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </>
  );
}
