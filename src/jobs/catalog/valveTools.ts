import { type CatalogPart, type ToolPart, tool } from "./part.ts";
import { NOT_STATED, TO_MEASURE } from "./sources.ts";

/** What reaches into the pocket: kickover tools, and what takes the valve or lets it go. */

const measured = {
  length: TO_MEASURE,
  outsideDiameter: TO_MEASURE,
  fishingNeck: TO_MEASURE,
  weight: TO_MEASURE,
};

interface Size {
  readonly feet: number;
  readonly outside: number;
  readonly neck: number;
  readonly pounds: number;
}

const sized = ({ feet, outside, neck, pounds }: Size) =>
  ({
    length: { value: feet, unit: "ft" },
    outsideDiameter: { value: outside, unit: "in" },
    fishingNeck: { value: neck, unit: "in" },
    weight: { value: pounds, unit: "lb" },
  }) as const;

const kickover = (made: "orienting" | "not orienting", tubing: string, size: Size) =>
  tool(
    {
      name: `Kickover tool, ${made}, for ${tubing} tubing`,
      kind: "kickover tool",
      ...sized(size),
      kickover: made,
    },
    { ...measured, kickover: "by its name: it has to match the mandrel" },
  );

/** Pins as a tool of this size usually carries them; of what they are made nobody can say from here. */
const pins = (inches: number, count: number, planes: 1 | 2, direction: "up" | "down") =>
  ({
    shear: {
      material: "not known",
      diameter: { value: inches, unit: "in" },
      count,
      planes,
      direction,
    },
  }) as const;

const pinSource = `diameter, count and planes ${TO_MEASURE}; material ${NOT_STATED}`;

const pulling = (latch: string, direction: "up" | "down", pin: number, size: Size) =>
  tool(
    {
      name: `Pulling tool for ${latch} valve, shears ${direction}`,
      kind: "pulling tool",
      ...sized(size),
      ...pins(pin, 1, 2, direction),
    },
    { ...measured, shear: `direction by its name; ${pinSource}` },
  );

const running = (latch: string, pin: number, size: Size) =>
  tool(
    {
      name: `Running tool for ${latch} valve`,
      kind: "running tool",
      ...sized(size),
      ...pins(pin, 2, 1, "up"),
    },
    {
      ...measured,
      shear: `jarred up once the valve is latched, and of brass, common practice; ${pinSource}`,
    },
  );

const inchPull = { feet: 1.2, outside: 1.25, neck: 1.187, pounds: 4 };
const inchAndHalfPull = { feet: 1.3, outside: 1.75, neck: 1.375, pounds: 8 };

export const valveTools: readonly CatalogPart<ToolPart>[] = [
  kickover("orienting", "2-3/8 in", { feet: 6.5, outside: 1.8, neck: 1.187, pounds: 32 }),
  kickover("orienting", "2-7/8 in", { feet: 8, outside: 2.25, neck: 1.375, pounds: 55 }),
  kickover("orienting", "3-1/2 in", { feet: 8.5, outside: 2.75, neck: 1.375, pounds: 85 }),
  kickover("not orienting", "2-3/8 in", { feet: 5, outside: 1.8, neck: 1.187, pounds: 25 }),
  kickover("not orienting", "2-7/8 in", { feet: 6, outside: 2.25, neck: 1.375, pounds: 42 }),
  kickover("not orienting", "3-1/2 in", { feet: 6.5, outside: 2.75, neck: 1.375, pounds: 65 }),
  pulling("1 in", "up", 0.1875, inchPull),
  pulling("1 in", "down", 0.1875, inchPull),
  pulling("1-1/2 in", "up", 0.25, inchAndHalfPull),
  pulling("1-1/2 in", "down", 0.25, inchAndHalfPull),
  running("1 in", 0.1875, { feet: 1, outside: 1.25, neck: 1.187, pounds: 4 }),
  running("1-1/2 in", 0.1875, { feet: 1.1, outside: 1.62, neck: 1.375, pounds: 6 }),
];
