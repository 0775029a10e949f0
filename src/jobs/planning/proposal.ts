import { assemble } from "../assemble.ts";
import { asEntered, type Writer } from "../display.ts";
import { focus, pocketsOf } from "../pockets.ts";
import { type OpenPoint, readinessOf } from "../readiness.ts";
import { pinMaterials } from "../records/equipment.ts";
import type { FurtherPocket, Job } from "../records/job.ts";
import type { Programme } from "../records/programme.ts";
import type { Mandrel } from "../records/well.ts";
import { type Results, resultsOf } from "../results/results.ts";
import { noChanges } from "../sheet/sheetWanted.ts";
import type { Library } from "../store/library.ts";
import { figuresOf } from "../toolString.ts";
import { isSet, type Kind, proposedDesign, proposedKind } from "./design.ts";
import { equipmentFor } from "./equipment.ts";
import {
  densityExpected,
  frictionExpected,
  levelExpected,
  packingExpected,
  wellheadExpected,
} from "./expected.ts";
import { type Stages, takenValves } from "./jobsBefore.ts";
import {
  choiceLine,
  type Option,
  open,
  type PlanLine,
  type Proposed,
  quantityLine,
  type Told,
  textLine,
} from "./line.ts";
import { limitFor, type Place, personFor, pinsFor, unitFor, unitInWords } from "./people.ts";
import { ofPocket, type PlanDraft, type PocketDraft } from "./planDraft.ts";
import { type Refusal, refusalOf, unknownsOf } from "./refusal.ts";
import { replacementsFor } from "./replacements.ts";
import { type Purpose, stringsFor } from "./stringChoice.ts";

/** A plan with everything that follows from well, mandrel, work, reason and day. */
export interface Proposal {
  /** as it would be kept; it lacks its reason or day while those are not entered */
  readonly job: Job;
  readonly programme: Programme;
  readonly results: Results;
  readonly lines: readonly PlanLine[];
  /** worst first */
  readonly points: readonly OpenPoint[];
  readonly holdPoints: readonly string[];
}

/** What the plan is made from. */
export interface Office {
  readonly library: Library;
  readonly stages: Stages;
  readonly writer: Writer;
}

/** What a line of one pocket begins with. */
type PocketLine = (
  what: string,
  label: string,
) => {
  readonly key: string;
  readonly section: "pocket";
  readonly pocket: string;
  readonly label: string;
};

/** Stands in for the day while none is chosen: nothing is out of certificate then. */
const NO_DAY = "2000-01-01";

/** Why there is no plan for the mandrel, where wireline cannot serve it. */
export function refusalFor(draft: PlanDraft, { wells }: Library): Refusal | undefined {
  const well = wells.find(({ id }) => id === draft.well);
  for (const { mandrel } of draft.pockets) {
    const of = well?.mandrels.find(({ id }) => id === mandrel);
    const refused = of && refusalOf(of);
    if (refused) return refused;
  }
  return undefined;
}

/** @returns undefined while no mandrel is chosen, or where wireline cannot serve it */
export function propose(draft: PlanDraft, office: Office): Proposal | undefined {
  const { library } = office;
  const well = library.wells.find(({ id }) => id === draft.well);
  const [first] = draft.pockets;
  if (!well || !first || refusalFor(draft, library)) return undefined;
  const maker = new Maker(bareJob(draft, well.id, first), draft, office);
  maker.equipment();
  maker.expected();
  maker.pockets();
  maker.strings();
  maker.people();
  const { job } = maker;
  const programme = assemble(job, library);
  const mandrels = well.mandrels.filter(({ id }) => pocketsOf(job).includes(id));
  return {
    job,
    programme,
    results: resultsOf(programme, {}),
    lines: maker.lines,
    points: pointsOf(maker.lines, mandrels, programme, office.writer),
    holdPoints: programme.sheet.phases.flatMap(({ items }) =>
      items.flatMap((item) => (item.type === "hold" ? [item.hold.title] : [])),
    ),
  };
}

function bareJob(draft: PlanDraft, well: string, { mandrel, work }: PocketDraft): Job {
  const further = draft.pockets
    .slice(1)
    .map((pocket): FurtherPocket => ({ ...pocket, design: {} }));
  return {
    id: draft.id,
    revision: 1,
    day: draft.day ?? NO_DAY,
    well,
    mandrel,
    reason: draft.reason.trim(),
    design: {},
    expected: {},
    strings: {},
    crew: {},
    sheet: { work, catcher: draft.catcher, changes: noChanges },
    ...(further.length > 0 && { also: further }),
  };
}

/** Puts the job together in the order in which one thing follows from another. */
class Maker {
  job: Job;
  readonly lines: PlanLine[] = [];
  private readonly draft: PlanDraft;
  private readonly office: Office;

  constructor(job: Job, draft: PlanDraft, office: Office) {
    this.job = job;
    this.draft = draft;
    this.office = office;
  }

  private programme(): Programme {
    return assemble(this.job, this.office.library);
  }

  private told<T>({ value, line }: Told<T, PlanLine>): T | undefined {
    this.lines.push(line);
    return value;
  }

  equipment() {
    const { library } = this.office;
    for (const [kind, key, label] of [
      ["lines", "line", "Line"],
      ["stacks", "stack", "Pressure equipment"],
      ["policies", "policy", "Policy"],
    ] as const) {
      const { options, proposed } = equipmentFor(kind, this.job, library);
      const of = { key, section: "equipment", label, record: { kind } } as const;
      const chosen = this.told(choiceLine(of, this.draft, options, proposed));
      if (chosen !== undefined) this.job = { ...this.job, [key]: chosen };
    }
  }

  expected() {
    const { library, writer } = this.office;
    const { system, atmosphere } = writer;
    const programme = this.programme();
    const line = { section: "expected" } as const;
    const wellheadPressure = this.told(
      quantityLine(
        { ...line, key: "wellhead", label: "Wellhead pressure, shut in", dimension: "pressure" },
        this.draft,
        system,
        wellheadExpected(programme, library),
        atmosphere,
      ),
    );
    const fluidLevelAlongHole = this.told(
      quantityLine(
        {
          ...line,
          key: "level",
          label: "Fluid level in the tubing, along hole",
          dimension: "length",
        },
        this.draft,
        system,
        levelExpected(programme, library),
      ),
    );
    const packingFriction = this.told(
      quantityLine(
        { ...line, key: "packing", label: "Packing friction", dimension: "force" },
        this.draft,
        system,
        packingExpected(programme, library),
      ),
    );
    const fluidDensity = this.told(
      quantityLine(
        {
          ...line,
          key: "density",
          label: "Density of the gas round the string",
          dimension: "density",
        },
        this.draft,
        system,
        densityExpected(programme, wellheadPressure, library, writer),
      ),
    );
    const friction = this.told(
      quantityLine(
        {
          ...line,
          key: "friction",
          label: "Friction coefficient of wire and string",
          dimension: "friction coefficient",
        },
        this.draft,
        system,
        frictionExpected(programme, library),
      ),
    );
    const expected = present({
      wellheadPressure,
      fluidLevelAlongHole,
      packingFriction,
      fluidDensity,
      friction,
    });
    this.job = { ...this.job, expected };
  }

  pockets() {
    const { library, stages } = this.office;
    const taken = takenValves(library, stages, this.job.id);
    for (const { mandrel } of this.draft.pockets) {
      const { design, replacement } = this.pocket(mandrel, taken);
      if (replacement !== undefined) taken.set(replacement, this.job);
      const filled = { design, ...(replacement !== undefined && { replacement }) };
      this.job =
        mandrel === this.job.mandrel
          ? { ...this.job, ...filled }
          : {
              ...this.job,
              also: (this.job.also ?? []).map((each) =>
                each.mandrel === mandrel ? { ...each, ...filled } : each,
              ),
            };
    }
  }

  private pocket(id: string, taken: ReadonlyMap<string, Job>) {
    const { library, writer } = this.office;
    const programme = focus(this.programme(), id);
    const mandrel = programme.well?.mandrels.find((each) => each.id === id);
    const work = this.draft.pockets.find((each) => each.mandrel === id)?.work;
    if (!mandrel || !work) return { design: {}, replacement: undefined };
    const installed = programme.installed.find((each) => each.id === mandrel.valve);
    const line: PocketLine = (what, label) => ({
      key: ofPocket(id, what),
      section: "pocket",
      pocket: id,
      label,
    });
    const kind = this.told(
      choiceLine(
        line("kind", "What kind goes in"),
        this.draft,
        work === "pull and dummy off" ? kinds.slice(-1) : kinds,
        proposedKind(work, installed),
      ),
    ) as Kind | undefined;
    const design = this.design(programme, mandrel, kind, line);
    const { options, proposed } = replacementsFor(
      { programme: withDesign(programme, design), mandrel, kind, taken },
      library,
      writer,
    );
    const of = { ...line("replacement", "What goes in"), record: { kind: "valves" } } as const;
    return { design, replacement: this.told(choiceLine(of, this.draft, options, proposed)) };
  }

  private design(
    programme: Programme,
    mandrel: Mandrel,
    kind: Kind | undefined,
    line: PocketLine,
  ): Job["design"] {
    if (!isSet(kind) || kind === undefined) return {};
    const { library, writer } = this.office;
    const { system, atmosphere } = writer;
    const of = proposedDesign(programme, mandrel, kind, library, writer);
    const ask = (what: string, label: string, proposed: typeof of.opening) =>
      this.told(
        quantityLine(
          { ...line(what, label), dimension: "pressure" },
          this.draft,
          system,
          proposed,
          atmosphere,
        ),
      );
    const opening = ask("opening", "Opening pressure wanted at the mandrel", of.opening);
    const seat = ask("seat", of.seatLabel, of.seat);
    return present({ openingAtMandrel: opening, [of.seatKey]: seat });
  }

  strings() {
    const { library, writer } = this.office;
    const programme = this.programme();
    const chosen = new Map<Purpose, string>();
    const widest = () =>
      Math.max(
        0,
        ...[...chosen.values()].map((id) => {
          const string = library.strings.find((each) => each.id === id);
          return (string && figuresOf(string).largest?.diameter) ?? 0;
        }),
      );
    // The gauge goes first and is chosen last: it has to prove the way for the others.
    const wanted: Purpose[] = [
      "pull",
      "set",
      ...(this.draft.catcher ? (["catcher"] as const) : []),
      "gauge",
    ];
    for (const purpose of wanted) {
      const { options, proposed } = stringsFor(purpose, programme, widest(), library, writer);
      const of = {
        key: purpose,
        section: "strings",
        label: labels[purpose],
        record: { kind: "strings" },
      } as const;
      const id = this.told(choiceLine(of, this.draft, options, proposed));
      if (id !== undefined) chosen.set(purpose, id);
    }
    this.job = { ...this.job, strings: Object.fromEntries(chosen) };
  }

  people() {
    const { library } = this.office;
    const { job, draft } = this;
    const crew = Object.fromEntries(
      places.flatMap(({ place, label }): [Place, string][] => {
        const { proposed, met } = personFor(place, job, library);
        const of = { key: place, section: "people", label } as const;
        const name = this.told(textLine(of, draft, proposed, met));
        return name === undefined ? [] : [[place, name]];
      }),
    );
    this.job = { ...job, crew };
    this.pins();
    this.unit();
    this.limits();
  }

  private pins() {
    const { library } = this.office;
    const set = library.strings.find(({ id }) => id === this.job.strings.set);
    const { value, source, why } = pinsFor(this.job, set, library);
    const of = (key: string, label: string) => ({ key, section: "people", label }) as const;
    const size = value?.diameter ? `, ${asEntered(value.diameter)}` : "";
    const material = this.told(
      choiceLine(
        of("pins.material", "Running-tool pins"),
        this.draft,
        pinMaterials.map((each) => ({
          id: each,
          name: each === value?.material ? `${each}${size}` : each,
          says: each === "brass" ? "" : "Only brass shears as it should (common practice).",
          fits: each === "brass",
        })),
        { value: value?.material, source, why },
      ),
    ) as (typeof pinMaterials)[number] | undefined;
    const told = <T>(is: T | undefined): Proposed<T> =>
      is === undefined ? open("Not stated.") : { value: is, source, why };
    const count = this.told(
      textLine(
        { ...of("pins.count", "Their count"), count: true, most: 12 },
        this.draft,
        told(value && String(value.count)),
      ),
    );
    const batch = this.told(
      textLine(
        of("pins.batch", "Their batch"),
        this.draft,
        value?.batch
          ? told(value.batch)
          : open("Their strength hangs on it: read it off the box, or leave it to the crew."),
      ),
    );
    if (!material || count === undefined) return;
    const { batch: _, material: __, count: ___, ...rest } = value ?? { material, count };
    // What is known of one material's pins says nothing about those of another.
    const same = material === value?.material ? rest : {};
    this.job = {
      ...this.job,
      pins: { ...same, material, count: Number(count), ...(batch !== undefined && { batch }) },
    };
  }

  private unit() {
    const { value, source, why } = unitFor(this.job, this.office.library);
    const plain = (indicator: "hay pulley" | "counter head", says: string) => ({
      id: indicator,
      name: `pull read at the ${indicator}`,
      says,
      fits: true,
    });
    const options = [
      ...(value ? [{ id: "last", name: unitInWords(value), says: "", fits: true }] : []),
      plain("hay pulley", "Angles and sheaves not stated."),
      plain("counter head", "Sheaves not stated."),
    ];
    const proposed: Proposed<string> = value ? { value: "last", source, why } : open(why);
    const of = { key: "unit", section: "limits", label: "Unit and line run" } as const;
    const taken = this.told(choiceLine(of, this.draft, options, proposed));
    if (taken === "last" && value) this.job = { ...this.job, unit: value };
    else if (taken === "hay pulley" || taken === "counter head") {
      this.job = { ...this.job, unit: { indicator: taken } };
    }
  }

  private limits() {
    const { library, writer } = this.office;
    const { job, draft } = this;
    const of = (key: string, label: string) => ({ key, section: "limits", label }) as const;
    const hits = limitFor("mostHits", job, library);
    const mostHits = this.told(
      textLine({ ...of("limits.hits", "Jar hits, at most"), count: true, most: 1000 }, draft, {
        ...hits,
        value: hits.value === undefined ? undefined : String(hits.value),
      }),
    );
    const mostPull = this.told(
      quantityLine(
        { ...of("limits.pull", "Line pull, at most"), dimension: "force" },
        draft,
        writer.system,
        limitFor("mostPull", job, library),
      ),
    );
    const cutBackAfter = this.told(
      quantityLine(
        { ...of("limits.cut", "Wire cut back after jarring"), dimension: "length" },
        draft,
        writer.system,
        limitFor("cutBackAfter", job, library),
      ),
    );
    const kickover = this.told(
      textLine(
        of("limits.kickover", "How the kickover tool lets go when it is fast"),
        draft,
        limitFor("kickover", job, library),
      ),
    );
    const release = present({
      mostHits: mostHits === undefined ? undefined : Number(mostHits),
      mostPull,
      cutBackAfter,
      kickover,
    });
    if (Object.keys(release).length > 0) this.job = { ...this.job, release };
  }
}

const kinds: readonly Option[] = (
  ["injection-operated", "production-operated", "orifice", "dummy"] as const
).map((kind) => ({ id: kind, name: kind, says: "", fits: true }));

const labels: Readonly<Record<Purpose, string>> = {
  gauge: "Gauge string",
  pull: "Pull string",
  set: "Set string",
  catcher: "Catcher string",
};

const places: readonly { readonly place: Place; readonly label: string }[] = [
  { place: "supervisor", label: "Wireline supervisor" },
  { place: "fieldOperator", label: "Field operator" },
  { place: "engineer", label: "Production engineer" },
];

const withDesign = (programme: Programme, design: Job["design"]): Programme => ({
  ...programme,
  job: { ...programme.job, design },
});

/** Without what is not there. */
function present<T extends object>(parts: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(
    Object.entries(parts).filter(([, value]) => value !== undefined),
  ) as never;
}

const rank = { fails: 0, missing: 1, ask: 2 } as const;

/** What readiness says of the job, with what only the plan knows: nothing is ticked off. */
function pointsOf(
  lines: readonly PlanLine[],
  mandrels: readonly Mandrel[],
  programme: Programme,
  writer: Writer,
): OpenPoint[] {
  const own = [
    ...lines.flatMap(notTaken),
    ...mandrels.flatMap(unknownSleeve),
    ...lines.flatMap(notFound),
  ];
  // What the plan says with its reason is not said again without.
  const said = readinessOf(programme, writer).points.filter(
    ({ says }) =>
      !lines.some(
        (line) => line.source === "open" && bare[line.key.split(" of ")[0] ?? ""]?.test(says),
      ) &&
      !(
        mandrels.some(({ orientingSleeve }) => orientingSleeve === "not known") && SLEEVE.test(says)
      ),
  );
  return [...own, ...said].sort((a, b) => rank[a.weight] - rank[b.weight]);
}

const SLEEVE = /whether the mandrel has an orienting sleeve/;

/** How readiness says that a line is open. */
const bare: Readonly<Record<string, RegExp>> = {
  pull: /^The pull string is not chosen|needs the pull string/,
  set: /^The set string is not chosen|needs the set string/,
  gauge: /^The gauge string is not chosen/,
  replacement: /No replacement valve is chosen/,
};

function notTaken(line: PlanLine): OpenPoint[] {
  if (line.kind === "choice" || !line.problem) return [];
  return [{ group: "sheet", weight: "fails", says: line.problem, stops: true }];
}

function unknownSleeve(mandrel: Mandrel): OpenPoint[] {
  if (mandrel.orientingSleeve !== "not known") return [];
  const [says = ""] = unknownsOf(mandrel);
  return [{ group: "well", weight: "fails", says, stops: true }];
}

/** Nothing to be had that fits: the point says why, or what to look for. */
function notFound(line: PlanLine): OpenPoint[] {
  const [what = ""] = line.key.split(" of ");
  if (line.kind !== "choice" || line.source !== "open" || !(what in bare)) return [];
  const misfit = line.options.length > 0 && line.options.every(({ fits }) => !fits);
  return [
    {
      group: what === "replacement" ? "valve" : "string",
      weight: misfit ? "fails" : "missing",
      says: openInWords(line),
      stops: true,
    },
  ];
}

/** A line that is open, as a sentence of its own. */
export const openInWords = ({ label, why }: PlanLine): string => `${label}: ${why}`;
