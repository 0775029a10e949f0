import { asEntered, type Writer } from "../display.ts";
import type { Line, Stack } from "../records/equipment.ts";
import type { Results } from "../results/results.ts";
import type { ResultId } from "../results/traced.ts";
import { keyOf, type LoadLine, once, sum, together } from "./loadLine.ts";
import type { ForWell } from "./loadTools.ts";

/** Every piece of the stacks, with what its certificate says. */
export function pressureLines(jobs: readonly ForWell[], day: string): LoadLine[] {
  const lines = jobs.flatMap(({ well, programme: { stack } }) =>
    (stack?.items ?? []).map((item): LoadLine => {
      const { certificateUntil } = item;
      const ask = !certificateUntil
        ? "No certificate date is on record."
        : certificateUntil < day
          ? `Its certificate ended ${certificateUntil}.`
          : undefined;
      return {
        key: keyOf("pressure", stack?.id, item.id),
        group: "pressure",
        count: 1,
        what: item.name,
        detail: [
          asEntered(item.rating),
          item.bore && `bore ${asEntered(item.bore)}`,
          certificateUntil ? `certificate until ${certificateUntil}` : "no certificate date",
        ]
          .filter(Boolean)
          .join(", "),
        wells: [well],
        ...(ask && { ask }),
      };
    }),
  );
  return together(lines, once);
}

/** Whatever seals where the stack is put together: taken along new. */
export function sealLines(jobs: readonly ForWell[]): LoadLine[] {
  const perStack = jobs.flatMap(({ well, programme: { stack } }) =>
    stack ? sealsOf(stack).map((line) => ({ ...line, wells: [well] })) : [],
  );
  const perTree = jobs.map(
    ({ well }): LoadLine => ({
      key: keyOf("seals", "tree"),
      group: "seals",
      count: 1,
      what: "Ring gasket or seal for the tree connection",
      wells: [well],
      practice: true,
      why: "One for each rig-up: size and kind as the tree has them.",
    }),
  );
  return [...together(perStack, once), ...together(perTree, sum)];
}

function sealsOf({ id, name, items }: Stack): Omit<LoadLine, "wells">[] {
  const joints = items.filter(({ kind }) => kind !== "hose or gauge").length - 1;
  const packings = items.filter(({ kind }) => kind === "packing");
  const line = (what: string, count: number, why: string) => ({
    key: keyOf("seals", id, what),
    group: "seals" as const,
    count,
    what,
    detail: `for ${name}`,
    practice: true as const,
    why,
  });
  return [
    ...(joints > 0 ? [line("O-ring of a union", joints, "One for each union of the stack.")] : []),
    ...(packings.length > 0
      ? [line("Packing of the stuffing box", packings.length, "One set, for this line.")]
      : []),
  ];
}

/** The line, and what is there for the day that it parts. */
export function lineLines(jobs: readonly ForWell[]): LoadLine[] {
  const used = jobs.flatMap(({ well, programme: { line } }) => (line ? [{ well, line }] : []));
  const lines = used.map(({ well, line }): LoadLine => {
    const unverified = line.strengthFrom === "from memory, unverified";
    return {
      key: keyOf("line", line.id),
      group: "line",
      count: 1,
      what: line.name,
      detail: figuresOf(line),
      wells: [well],
      ...(unverified && {
        ask: "Its breaking strength is from memory. Take the certificate along.",
      }),
    };
  });
  const fishing = used.flatMap(({ well, line }) => {
    const size = asEntered(line.diameter);
    const spare = (what: string, detail?: string): LoadLine => ({
      key: keyOf("spares", what, detail),
      group: "spares",
      count: 1,
      what,
      ...(detail && { detail }),
      wells: [well],
      practice: true,
    });
    return [
      spare("Spare rope socket", `for ${size} line`),
      spare("Wire grab", `for ${size} line`),
      spare("Wire cutter", `for ${size} line`),
      spare("Impression block"),
      spare("Bailer"),
    ];
  });
  return [...together(lines, once), ...together(fishing, once)];
}

function figuresOf({ diameter, breakingStrength, lastCutAndTested }: Line): string {
  return [
    asEntered(diameter),
    `breaks at ${asEntered(breakingStrength)}`,
    lastCutAndTested ? `cut and tested ${lastCutAndTested}` : "not known when cut and tested",
  ].join(", ");
}

const hydrateResults: readonly ResultId[] = ["hydrate-wellhead", "hydrate-casing"];

/** Against hydrates, for every well where they can form at some temperature. */
export function chemicalLines(
  jobs: readonly (ForWell & { readonly results: Results; readonly writer: Writer })[],
): LoadLine[] {
  const lines = jobs.flatMap(({ well, results, writer }): LoadLine[] => {
    const warned = hydrateResults.flatMap((id) => {
      const traced = results.get(id);
      const si = results.value(id);
      return traced && si !== undefined
        ? [`${well}: ${traced.label}: ${writer.write("temperature", si)}.`]
        : [];
    });
    if (warned.length === 0) return [];
    return [
      {
        key: keyOf("chemicals", "inhibitor"),
        group: "chemicals",
        count: 1,
        what: "Methanol or glycol, with what pumps it in",
        wells: [well],
        practice: true,
        why: warned.join(" "),
      },
    ];
  });
  return together(lines, once);
}
