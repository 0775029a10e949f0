import { addMinutes } from "date-fns";
import { jobs } from "../../demo-data/emberMesa.ts";
import type { EventBody } from "../../src/jobs/log/event.ts";
import { type Picture, pictureHash } from "../../src/jobs/store/picture.ts";
import { Tablet } from "../jobs/demo.ts";

/** Made out of nothing but numbers: what a long job leaves on a tablet, longer than any. */

export const LONG = 2000;
const PHOTOGRAPHS = 40;
/** bytes of one photograph, as a tablet's camera gives it after it was made smaller */
const BYTES = 300_000;

const psig = (value: number) => ({
  kind: "quantity" as const,
  dimension: "pressure" as const,
  value,
  unit: "psig",
});

function gauges(step: "level-last", index: number, at: string): EventBody {
  return {
    type: "readings taken",
    step,
    takenAt: at,
    entries: [
      { field: `${step}-casing`, value: psig(750 + (index % 7)) },
      { field: `${step}-wellhead`, value: psig(318 + (index % 2)) },
    ],
  };
}

function pictureOf(index: number): Picture {
  const bytes = new Uint8Array(BYTES);
  bytes.set([0xff, 0xd8, 0xff, 0xe0]);
  for (let place = 4; place < BYTES; place += 1) bytes[place] = (place * 31 + index * 17) & 0xff;
  return { sha256: pictureHash(bytes), type: "image/jpeg", bytes };
}

/**
 * The ready job, run to its most guarded hold point, where both gauges were then read over and over: a log of 2,000
 * events, half of them readings, with corrections, notes and forty photographs among them.
 */
export function longLog(): { readonly tablet: Tablet; readonly pictures: Picture[] } {
  const pictures = Array.from({ length: PHOTOGRAPHS }, (_, index) => pictureOf(index));
  const tablet = new Tablet(undefined, jobs.ready.id);
  tablet.start().runTo("level-hold");
  const begun = tablet.now;
  const photographs = pictures.map(
    ({ sha256 }): EventBody => ({
      type: "photograph",
      picture: sha256,
      width: 1600,
      height: 1200,
      at: "locate",
    }),
  );
  const minute = (index: number) => addMinutes(begun, index / 4).toISOString();
  const readings = Array.from({ length: LONG / 2 }, (_, i) => gauges("level-last", i, minute(i)));
  tablet.now = addMinutes(begun, LONG / 8);
  const read = tablet.write(...photographs, ...readings).slice(PHOTOGRAPHS);
  const corrections = read.slice(0, 100).map(
    ({ hash }): EventBody => ({
      type: "correction",
      corrects: hash,
      field: "level-last-casing",
      value: psig(752),
      reason: "misread",
    }),
  );
  const left = LONG - tablet.events.length - corrections.length;
  const notes = Array.from(
    { length: left },
    (_, i): EventBody => ({ type: "note", step: "level-last", text: `Watched, ${i}.` }),
  );
  tablet.write(...corrections, ...notes);
  return { tablet, pictures };
}
