import { kickoverOf } from "../checks/valveChecks.ts";
import type { Writer } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { targetMandrel } from "../programme.ts";
import { toSI } from "../quantity.ts";
import type { ToolString } from "../records/equipment.ts";
import type { Programme } from "../records/programme.ts";
import { wellBores } from "../results/boresOnTheWay.ts";
import { contextOf } from "../results/context.ts";
import type { Library } from "../store/library.ts";
import { type Aspect, fitOf, verdictsOf } from "../stringFit.ts";
import { aspectTitles, fitInShort } from "../stringFitWords.ts";
import { figuresOf } from "../toolString.ts";
import { jobName, lastSaid } from "./jobsBefore.ts";
import { type Option, open, type Proposed } from "./line.ts";

/** Which string goes down for a run: it has to reach every pocket of the job, and fit what stands above. */

export type Purpose = ToolString["purpose"];

export interface StringsFor {
  readonly options: readonly Option[];
  readonly proposed: Proposed<string>;
}

/** The narrowest place on the way down that is on record, whatever is still missing. */
export function narrowestBore(
  programme: Programme,
): { readonly bore: number; readonly restriction: string } | undefined {
  const all = pocketsOf(programme.job).flatMap((pocket) => {
    const context = contextOf(focus(programme, pocket), {});
    return wellBores(context, undefined).bores;
  });
  const stack = (programme.stack?.items ?? []).flatMap(({ name, kind, bore }) =>
    bore && kind !== "packing" && kind !== "hose or gauge"
      ? [{ restriction: name, bore: toSI("diameter", bore) }]
      : [],
  );
  return [...all, ...stack].sort((a, b) => a.bore - b.bore)[0];
}

const MOST_WEIGHED = 16;

interface Judged {
  readonly string: ToolString;
  /** what it does not fit, in words */
  readonly against: readonly string[];
  readonly aspects: ReadonlySet<Aspect | "gauge">;
  readonly largest: number;
}

/**
 * @param programme of the plan, with everything but its strings
 * @param most largest diameter of the strings that go down after the gauge, m; 0 where none is chosen
 */
export function stringsFor(
  purpose: Purpose,
  programme: Programme,
  most: number,
  library: Library,
  writer: Writer,
): StringsFor {
  const last = lastSaid(library, programme.job.id, ({ strings }) => strings[purpose]);
  const order = (of: Judged) => (of.string.id === last?.said ? 0 : 1);
  const narrow = narrowestBore(programme);
  const all = library.strings
    .filter((string) => string.purpose === purpose)
    .map((string) => reaching(string, programme, narrow, writer))
    .sort((a, b) => weightOf(a) - weightOf(b) || order(a) - order(b));
  // Weighing a string against push-out and drag costs more than looking at it: those that reach come first.
  const judged = all.map((each, index) =>
    index < MOST_WEIGHED ? weighed(each, programme, most, writer) : each,
  );
  const ranked = judged.sort(
    (a, b) =>
      weightOf(a) - weightOf(b) ||
      order(a) - order(b) ||
      // The widest gauge that passes proves most.
      (purpose === "gauge" ? b.largest - a.largest : 0) ||
      a.string.name.localeCompare(b.string.name),
  );
  const options = ranked.map(({ string, against }) => ({
    id: string.id,
    name: string.name,
    says: against.join(" "),
    fits: against.length === 0,
  }));
  return { options, proposed: proposed(purpose, ranked, last, library) };
}

/** What cannot be mended on location weighs most. */
const weightOf = ({ aspects }: Judged) =>
  (aspects.has("kickover") ? 100 : 0) +
  (aspects.has("bore") ? 50 : 0) +
  (aspects.has("order") ? 20 : 0) +
  aspects.size;

/** Whether it goes down to every pocket, and into it. */
function reaching(
  string: ToolString,
  programme: Programme,
  narrow: ReturnType<typeof narrowestBore>,
  writer: Writer,
): Judged {
  const { purpose } = string;
  const largest = figuresOf(string).largest?.diameter ?? 0;
  const tooWide =
    narrow && largest >= narrow.bore
      ? [
          `Its largest tool, ${writer.write("diameter", largest)}, does not pass the ${narrow.restriction} of ${writer.write("diameter", narrow.bore)}.`,
        ]
      : [];
  const mismatch =
    purpose === "pull" || purpose === "set"
      ? pocketsOf(programme.job).flatMap((pocket) => {
          const { state, says } = kickoverOf(
            purpose,
            string,
            targetMandrel(focus(programme, pocket)),
          );
          return state === "fails" ? [says] : [];
        })
      : [];
  const aspects = new Set<Aspect | "gauge">();
  if (mismatch.length > 0) aspects.add("kickover");
  if (tooWide.length > 0) aspects.add("bore");
  return { string, against: [...new Set([...mismatch, ...tooWide])], aspects, largest };
}

/** The same, with what its weight and length come to. */
function weighed(of: Judged, programme: Programme, most: number, writer: Writer): Judged {
  const { string, largest } = of;
  const against = [...of.against];
  const aspects = new Set(of.aspects);
  for (const pocket of pocketsOf(programme.job)) {
    const fit = fitOf(string, focus(programme, pocket));
    for (const { aspect, state } of verdictsOf([fit])) {
      if (state !== "does not fit" || aspect === "bore" || aspect === "kickover") continue;
      const words = `${aspectTitles[aspect]}: ${fitInShort(fit, aspect, writer)}.`;
      aspects.add(aspect);
      if (!against.includes(words)) against.push(words);
    }
  }
  if (string.purpose === "gauge" && most > 0 && largest < most) {
    aspects.add("gauge");
    against.push(
      `At ${writer.write("diameter", largest)} it proves no way for the ${writer.write("diameter", most)} of the strings after it.`,
    );
  }
  return { ...of, against, aspects };
}

function proposed(
  purpose: Purpose,
  ranked: readonly Judged[],
  last: ReturnType<typeof lastSaid<string>>,
  library: Library,
): Proposed<string> {
  const [best] = ranked;
  if (!best) return open(`There is no ${purpose} string yet.`);
  const fitting = ranked.filter(({ against }) => against.length === 0);
  if (fitting.length === 0) {
    const others = ranked.length > 1 ? `None of ${ranked.length} fits. ` : "";
    // One that cannot reach the pocket, or does not pass, is no proposal.
    if (best.aspects.has("kickover") || best.aspects.has("bore")) {
      const [first = ""] = best.against;
      return open(`${others || "The only one does not fit. "}${best.string.name}: ${first}`);
    }
    return { value: best.string.id, source: "nearest", why: `${others}${best.against.join(" ")}` };
  }
  const value = best.string.id;
  if (last && last.said === value) {
    return { value, source: "last job", why: `Fits; as in ${jobName(last.job, library)}.` };
  }
  return fitting.length === 1
    ? { value, source: "only one", why: "The only one that fits." }
    : {
        value,
        source: "nearest",
        why: `One of ${fitting.length} that fit${purpose === "gauge" ? ", the widest" : ""}.`,
      };
}
