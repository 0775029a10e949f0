import { focus, pocketsOf } from "./pockets.ts";
import { targetMandrel, valveToPull } from "./programme.ts";
import type { Programme } from "./records/programme.ts";
import { sheetWanted } from "./sheet/sheetWanted.ts";

/** What goes out and what goes in, by serial; the pockets after the first with their mandrels. */
export function changeInWords(programme: Programme): string {
  const [first = "", ...further] = pocketsOf(programme.job);
  const more = further.map((pocket) => {
    const of = focus(programme, pocket);
    return `; mandrel ${targetMandrel(of)?.number ?? "?"}: ${changeAt(of)}`;
  });
  return `${changeAt(focus(programme, first))}${more.join("")}`;
}

function changeAt(programme: Programme): string {
  const goesIn = programme.replacement?.serial ?? "none chosen";
  if (sheetWanted(programme.job).work === "set into an empty pocket") {
    return `${goesIn} into the empty pocket`;
  }
  return `${valveToPull(programme)?.serial ?? "valve in pocket"} out, ${goesIn} in`;
}

/** What is done with which valve, one pocket after the other, as a sentence begins. */
export function workInWords(programme: Programme): string[] {
  return pocketsOf(programme.job).map((pocket) => workAt(focus(programme, pocket)));
}

function workAt(programme: Programme): string {
  const mandrel = `mandrel ${targetMandrel(programme)?.number ?? "?"}`;
  const out = valveToPull(programme)?.serial ?? "the valve";
  const goesIn = programme.replacement?.serial ?? "a valve not chosen yet";
  switch (sheetWanted(programme.job).work) {
    case "change out":
      return `Change out ${out} for ${goesIn} in ${mandrel}`;
    case "pull and dummy off":
      return `Pull ${out} and blank its pocket with dummy ${goesIn}, in ${mandrel}`;
    case "set into an empty pocket":
      return `Set ${goesIn} into the empty pocket of ${mandrel}`;
  }
}
