import { asEntered } from "../display.ts";
import { pocketsOf } from "../pockets.ts";
import type { OwnedTool, Tool } from "../records/equipment.ts";
import type { Programme } from "../records/programme.ts";
import { pinsOf } from "../results/toolPins.ts";
import type { Library } from "../store/library.ts";
import { keyOf, type LoadLine, once, sum, together } from "./loadLine.ts";

export interface ForWell {
  readonly well: string;
  readonly programme: Programme;
}

const stringsOf = ({ strings }: Programme) =>
  [strings.gauge, strings.pull, strings.set, strings.catcher].filter(
    (string) => string !== undefined,
  );

/**
 * The tools of every string. Strings are made up one after the other, so a tool that stands in several of them, or
 * one just like it, is loaded as often as the string asks that has the most of it.
 */
export function toolLines(
  jobs: readonly ForWell[],
  owned: Library["tools"],
  day: string,
): LoadLine[] {
  const isOwned = (id: string) => owned.some((each) => each.id === id);
  const perString = jobs.flatMap(({ well, programme }) =>
    stringsOf(programme).map(({ tools }) =>
      together(
        tools
          // A tool with a serial is there once, whatever the string says.
          .filter(
            ({ id }, index) => !isOwned(id) || tools.findIndex((each) => each.id === id) === index,
          )
          .map((tool) => toolLine(tool, owned, well, day)),
        sum,
      ),
    ),
  );
  return together(perString.flat(), once);
}

function toolLine(tool: Tool, owned: Library["tools"], well: string, day: string): LoadLine {
  const own = owned.find(({ id }) => id === tool.id);
  const figures = `${asEntered(tool.outsideDiameter)} × ${asEntered(tool.length)}`;
  if (!own) {
    return {
      key: keyOf("tools", tool.kind, tool.name, figures),
      group: "tools",
      count: 1,
      what: tool.name,
      detail: figures,
      wells: [well],
    };
  }
  const ask = ownedProblem(own, day);
  return {
    key: keyOf("tools", own.id),
    group: "tools",
    count: 1,
    what: own.name,
    detail: `serial ${own.serial}, ${figures}`,
    wells: [well],
    ...(ask && { ask }),
  };
}

/** Why a tool that the office owns should stay there. */
export function ownedProblem(
  { name, serial, state, certificateUntil }: OwnedTool,
  day: string,
): string | undefined {
  const called = `${name}, serial ${serial},`;
  if (state === "scrapped") return `${called} is scrapped.`;
  if (state === "in repair") return `${called} is in repair.`;
  return certificateUntil && certificateUntil < day
    ? `${called} has a certificate that ended ${certificateUntil}.`
    : undefined;
}

/** Pins that are sheared in each pocket, and as many again to spare. */
export function pinLines(jobs: readonly ForWell[]): LoadLine[] {
  const asked = jobs.flatMap(({ well, programme }): LoadLine[] => {
    const { strings, job } = programme;
    const pockets = pocketsOf(job).length;
    const pulling = strings.pull?.tools.find(({ kind }) => kind === "pulling tool");
    const running = strings.set?.tools.find(({ kind }) => kind === "running tool");
    const pulls = pulling && pinsOf(pulling, job);
    const sets = pinsOf(running, job);
    return [
      { tool: "pulling tool", pins: pulls },
      { tool: "running tool", pins: sets },
    ].flatMap(({ tool, pins }) => {
      if (!pins) return [];
      const size = pins.diameter ? asEntered(pins.diameter) : "diameter not known";
      return [
        {
          key: keyOf("pins", tool, pins.material, size, pins.batch),
          group: "pins" as const,
          count: pins.count * pockets,
          what: `Shear pin, ${pins.material === "not known" ? "material not known" : pins.material}, ${size}`,
          detail: `${tool}${pins.batch ? `, batch ${pins.batch}` : ""}`,
          wells: [well],
          ...(!pins.diameter && { ask: `Find out the diameter of the ${tool}'s pins.` }),
        },
      ];
    });
  });
  const lines = together(asked, sum);
  const spares = lines.map((line): LoadLine => {
    const { ask: _, ...rest } = line;
    return {
      ...rest,
      key: keyOf("spares", line.key),
      group: "spares",
      what: `Spare: ${line.what.replace(/^S/, "s")}`,
      practice: true,
      why: "One full set more than is sheared, from the same batch, with its certificate.",
    };
  });
  return [...lines, ...spares];
}
