import { bodyFigures, type Tool, type ToolString } from "./records/equipment.ts";

/** Whether the tools of a string stand in an order that can work. */
export interface MakeUp {
  /** what cannot be meant, e.g. `has no rope socket at its top` */
  readonly wrong: readonly string[];
  /** what is usually there and is not */
  readonly remarks: readonly string[];
}

const atBottom: Readonly<Partial<Record<ToolString["purpose"], Tool["kind"]>>> = {
  pull: "pulling tool",
  set: "running tool",
};

/**
 * A string by common practice, top down: one rope socket, stem, jars with every stem above them, a knuckle joint, and
 * at the bottom what the run is for. A gauge or catcher run ends with whatever it is to bring down.
 */
export function makeUpOf({ tools, purpose }: ToolString): MakeUp {
  const kinds = tools.map(({ kind }) => kind);
  const sockets = kinds.filter((kind) => kind === "rope socket").length;
  const jars = kinds.indexOf("jars");
  const needed = atBottom[purpose];
  const wrong = [
    sockets > 1 && `has ${sockets} rope sockets`,
    kinds[0] !== "rope socket" && "has no rope socket at its top",
    jars >= 0 &&
      kinds.lastIndexOf("stem") > jars &&
      "has stem below its jars: they strike with what hangs above them",
    needed && kinds.at(-1) !== needed && `has no ${needed} at its bottom`,
    ...tools.map(withoutBody),
  ];
  const remarks = [
    jars < 0 && "has no jars",
    !kinds.includes("knuckle joint") && "has no knuckle joint",
  ];
  const said = (all: readonly (string | false | undefined)[]) =>
    all.filter((each) => typeof each === "string");
  return { wrong: said(wrong), remarks: said(remarks) };
}

/** Older records may hold a tool that nobody measured as one of 0. */
function withoutBody(tool: Tool): string | false {
  const nothing = bodyFigures.filter((figure) => !(tool[figure].value > 0));
  const names = { length: "length", outsideDiameter: "diameter", weight: "weight" } as const;
  return (
    nothing.length > 0 &&
    `has ${tool.name} with a ${nothing.map((figure) => names[figure]).join(" and ")} that is not above 0`
  );
}
