import { COMPONENT_NAMES } from "../../calc/aga8Constants.ts";
import { pulledConditions } from "../../jobs/pulledConditions.ts";
import { type Dimension, unitsOf } from "../../jobs/quantity.ts";
import type { RecordKind } from "../../jobs/store/library.ts";

/** One thing that a planner can change in a record, by its path in the record. */
export type FieldSpec = {
  readonly path: string;
  readonly label: string;
  readonly optional?: boolean;
} /** `scan`: it stands as a code on a tag, too */ & (
  | { readonly kind: "text"; readonly scan?: true }
  | { readonly kind: "long" | "number" | "day" }
  | { readonly kind: "choice"; readonly choices: readonly string[] }
  | { readonly kind: "quantity"; readonly dimension: Dimension }
  /** another record, by its id */
  | { readonly kind: "record"; readonly of: RecordKind; readonly purpose?: string }
);

/** A run of fields, or a list whose every item has the same fields. */
export type Section =
  | {
      readonly title: string;
      readonly fields: readonly FieldSpec[];
      /** opened only by who needs it */
      readonly folded?: true;
    }
  | {
      readonly title: string;
      readonly list: string;
      readonly item: string;
      readonly fields: readonly FieldSpec[];
      /** opened only by who needs it: its items are many */
      readonly folded?: true;
      /** a new item, before anything is entered */
      readonly blank: (index: number) => Record<string, unknown>;
    };

const text = (path: string, label: string, optional = false): FieldSpec => ({
  kind: "text",
  path,
  label,
  optional,
});
const number = (path: string, label: string, optional = false): FieldSpec => ({
  kind: "number",
  path,
  label,
  optional,
});
const day = (path: string, label: string, optional = false): FieldSpec => ({
  kind: "day",
  path,
  label,
  optional,
});
const choice = (
  path: string,
  label: string,
  choices: readonly string[],
  optional = false,
): FieldSpec => ({
  kind: "choice",
  path,
  label,
  choices,
  optional,
});
const quantity = (
  path: string,
  label: string,
  dimension: Dimension,
  optional = false,
): FieldSpec => ({
  kind: "quantity",
  path,
  label,
  dimension,
  optional,
});
const record = (path: string, label: string, of: RecordKind, purpose?: string): FieldSpec => ({
  kind: "record",
  path,
  label,
  of,
  optional: true,
  ...(purpose !== undefined && { purpose }),
});
const remarks: Section = {
  title: "Remarks",
  fields: [{ kind: "long", path: "remarks", label: "Remarks", optional: true }],
};

const gasSections = (title: string, path: string): Section[] => [
  {
    title,
    fields: [
      quantity(`${path}.specificGravity`, "Gravity, air = 1", "ratio", true),
      quantity(`${path}.co2`, "Carbon dioxide", "fraction", true),
      quantity(`${path}.h2s`, "Hydrogen sulfide", "fraction", true),
      quantity(`${path}.n2`, "Nitrogen", "fraction", true),
    ],
  },
  {
    title: `${title}: by analysis, in place of gravity`,
    folded: true,
    fields: COMPONENT_NAMES.map((name) =>
      quantity(`${path}.analysis.${name}`, componentLabel(name), "fraction", true),
    ),
  },
];

/** `n_butane` as print writes it. */
const componentLabel = (name: string) =>
  name
    .replace(/^n_/, "n-")
    .replaceAll("_", " ")
    .replace(/^./, (first) => first.toUpperCase());

/** A quantity nobody has entered yet, in the unit the trade reaches for. */
const empty = (dimension: Dimension) => ({ value: "", unit: unitsOf(dimension)[0] });

const policyLimit = (path: string, label: string, dimension?: Dimension): FieldSpec[] => [
  dimension ? quantity(`${path}.value`, label, dimension) : number(`${path}.value`, label),
  text(`${path}.basis`, "Where it comes from"),
];

const sourFitness = ["declared fit", "declared not fit", "not declared"];
const pinMaterials = ["brass", "steel", "aluminium", "not known"];

/** Limits that older policies do not have. */
const optionally = (field: FieldSpec): FieldSpec => ({ ...field, optional: true });

/** What is known of a tool, in a string or by itself. */
const toolFields: readonly FieldSpec[] = [
  text("name", "Name"),
  choice("kind", "Kind", [
    "rope socket",
    "stem",
    "jars",
    "knuckle joint",
    "kickover tool",
    "pulling tool",
    "running tool",
    "gauge cutter",
    "other",
  ]),
  quantity("length", "Length, closed", "length"),
  quantity("lengthExtended", "Length, extended", "length", true),
  quantity("outsideDiameter", "Outside diameter", "diameter"),
  quantity("fishingNeck", "Fishing neck", "diameter", true),
  quantity("weight", "Weight", "weight"),
  choice("kickover", "Kickover made for", ["orienting", "not orienting"], true),
  quantity("strength", "Steady pull it stands", "force", true),
  quantity("blow", "Blow of the jars at the tool, by the maker", "force", true),
  choice("shear.material", "Its shear pins, material", pinMaterials, true),
  quantity("shear.diameter", "Their diameter", "diameter", true),
  number("shear.count", "Their count", true),
  number("shear.planes", "Planes each, 1 or 2", true),
  choice("shear.direction", "Sheared by jarring", ["up", "down"], true),
];

/** Records that are changed field by field; a day and an investigation have screens of their own. */
export type EditedKind = Exclude<RecordKind, "days" | "investigations">;
export const isEdited = (kind: RecordKind): kind is EditedKind =>
  kind !== "days" && kind !== "investigations";

/** What can be changed in each kind of record. */
export const sections: Readonly<Record<EditedKind, readonly Section[]>> = {
  wells: [
    {
      title: "Well",
      fields: [
        text("name", "Name"),
        text("field", "Field"),
        text("depthReference.name", "Depths counted from"),
        quantity("depthReference.aboveWellheadZero", "That above the wellhead zero", "length"),
        choice("injectionDown", "Injection down the", ["annulus", "tubing"]),
        // In gauge an atmosphere would count from itself.
        quantity("atmosphere", "Atmosphere at the site", "absolute pressure", true),
        number("crownValveTurns", "Turns of the crown valve", true),
        choice("path.kind", "Path of the well", ["vertical", "surveyed"]),
      ],
    },
    {
      title: "Survey of the path, where it is surveyed",
      list: "path.stations",
      item: "Station",
      folded: true,
      fields: [
        quantity("depthAlongHole", "Depth along hole", "length"),
        quantity("inclination", "Inclination", "angle"),
        quantity("azimuth", "Azimuth", "angle"),
      ],
      blank: () => ({
        depthAlongHole: empty("length"),
        inclination: empty("angle"),
        azimuth: empty("angle"),
      }),
    },
    {
      title: "Pressures",
      fields: [
        quantity("pressures.maximumShutInWellhead", "Maximum shut-in wellhead", "pressure", true),
        quantity("pressures.fullInjectionAtSurface", "Full injection at surface", "pressure", true),
        quantity(
          "pressures.operatingInjectionAtSurface",
          "Operating injection at surface",
          "pressure",
          true,
        ),
        quantity(
          "tubingLiquidGradient",
          "Gradient of the tubing liquid",
          "pressure gradient",
          true,
        ),
        choice("annulusLiquid.state", "Liquid in the annulus", ["none", "not known", "standing"]),
        quantity("annulusLiquid.topTrueVertical", "Its top, true vertical", "length", true),
        quantity("annulusLiquid.gradient", "Its gradient", "pressure gradient", true),
      ],
    },
    ...gasSections("Injection gas", "injectionGas"),
    ...gasSections("Gas on the side that produces, shut in, where it is another", "tubingGas"),
    {
      title: "On lift, as it is meant to run",
      fields: [
        quantity("onLift.wellhead", "Wellhead pressure", "pressure", true),
        quantity(
          "onLift.liftedGradient",
          "Gradient above the entry of gas",
          "pressure gradient",
          true,
        ),
        quantity("onLift.gradientBelow", "Gradient below it", "pressure gradient", true),
        quantity("onLift.loadGradient", "Gradient of the load liquid", "pressure gradient", true),
        quantity("onLift.injectionRate", "Injection rate", "gas rate", true),
      ],
    },
    {
      title: "On lift, as last found",
      fields: [
        day("lastFound.day", "Day", true),
        quantity("lastFound.injectionAtSurface", "Injection pressure at surface", "pressure", true),
        quantity("lastFound.wellhead", "Wellhead pressure", "pressure", true),
        quantity("lastFound.injectionRate", "Injection rate", "gas rate", true),
      ],
    },
    {
      title: "Pressure survey on lift",
      list: "lastFound.survey",
      item: "Stop",
      fields: [
        quantity("trueVerticalDepth", "True vertical depth", "length"),
        quantity("pressure", "Pressure", "pressure"),
      ],
      blank: () => ({ trueVerticalDepth: empty("length"), pressure: empty("pressure") }),
    },
    {
      title: "Where the gas goes down, for its friction",
      fields: [
        quantity("annulus.casingInside", "Casing, inside diameter", "diameter", true),
        quantity("annulus.tubingOutside", "Tubing, outside diameter", "diameter", true),
        quantity("annulus.roughness", "Roughness of the walls", "diameter", true),
      ],
    },
    {
      title: "What flows up, for flowing temperatures by correlation",
      folded: true,
      fields: [
        quantity("stream.liquidRate", "Liquid rate", "liquid rate", true),
        quantity("stream.liquidDensity", "Density of the liquid", "density", true),
        quantity("stream.oilApiGravity", "Oil, degrees API", "ratio", true),
        quantity("stream.gasRate", "Gas rate, lift gas included", "gas rate", true),
        quantity("stream.gasGravity", "Gravity of that gas", "ratio", true),
        quantity("stream.tubingInside", "Tubing, inside diameter", "diameter", true),
        quantity("stream.entersAlongHole", "Perforations, along hole", "length", true),
        quantity("stream.productivityIndex", "Productivity index", "productivity index", true),
      ],
    },
    ...(["shutIn", "flowing"] as const).map(
      (condition): Section => ({
        title: condition === "shutIn" ? "Temperatures, shut in" : "Temperatures, flowing",
        list: `temperatures.${condition}`,
        item: "Point",
        fields: [
          quantity("trueVerticalDepth", "True vertical depth", "length"),
          quantity("temperature", "Temperature", "temperature"),
        ],
        blank: () => ({ trueVerticalDepth: empty("length"), temperature: empty("temperature") }),
      }),
    ),
    {
      title: "Mandrels",
      list: "mandrels",
      item: "Mandrel",
      fields: [
        number("number", "Number, from the top"),
        quantity("depthAlongHole", "Depth along hole", "length"),
        choice("construction", "Construction", ["side pocket", "conventional"]),
        choice("pocket", "Pocket", ["1 in", "1-1/2 in", "not known"]),
        choice("orientingSleeve", "Orienting sleeve", ["yes", "no", "not known"]),
        text("latchProfile", "Latch profile", true),
        quantity("upperBore", "Upper seal bore", "diameter", true),
        quantity("lowerBore", "Lower seal bore", "diameter", true),
        choice("pocketState", "The pocket", ["holds a valve", "empty", "not known"]),
        record("valve", "Valve in it", "valves"),
      ],
      blank: (index) => ({
        id: crypto.randomUUID(),
        number: index + 1,
        depthAlongHole: empty("length"),
        construction: "side pocket",
        pocket: "not known",
        orientingSleeve: "not known",
        pocketState: "not known",
      }),
    },
    {
      title: "Tubing",
      list: "tubing",
      item: "Section",
      fields: [
        text("name", "Size and weight"),
        quantity("from", "From, along hole", "length"),
        quantity("to", "To, along hole", "length"),
        quantity("drift", "Drift", "diameter"),
      ],
      blank: () => ({
        name: "",
        from: empty("length"),
        to: empty("length"),
        drift: empty("diameter"),
      }),
    },
    {
      title: "Narrower than the tubing",
      list: "restrictions",
      item: "Restriction",
      fields: [
        text("name", "What it is called"),
        choice("kind", "What it is", ["nipple", "safety valve", "hanger", "other"]),
        quantity("depthAlongHole", "Depth along hole", "length"),
        quantity("bore", "Bore", "diameter"),
      ],
      blank: () => ({
        name: "",
        kind: "nipple",
        depthAlongHole: empty("length"),
        bore: empty("diameter"),
      }),
    },
    remarks,
  ],
  valves: [
    {
      title: "Valve",
      fields: [
        { kind: "text", path: "serial", label: "Serial", scan: true },
        choice("state", "Where it is, out of a pocket", ["in stock", "pulled", "scrapped"], true),
        choice("kind", "Kind", ["injection-operated", "production-operated", "orifice", "dummy"]),
        choice("size", "Size", ["1 in", "1-1/2 in"]),
        text("latch", "Latch", true),
        quantity("latchHolds", "Upward pull the latch holds, by the maker", "force", true),
        quantity("port", "Port", "diameter", true),
        quantity("bellowsArea", "Bellows area", "area", true),
        choice("seat", "Seat", ["sharp-edged", "lapped"], true),
        quantity("sealDiameter", "Seal diameter of a lapped seat", "diameter", true),
        quantity("seatArea", "Seat seal area, where it is stated", "area", true),
        quantity("choke", "Choke upstream of the port", "diameter", true),
        quantity("dischargeCoefficient", "Discharge coefficient", "ratio", true),
        quantity("loadRate", "Bellows-assembly load rate", "load rate", true),
        quantity("ballDiameter", "Ball on the stem", "diameter", true),
        choice("charge", "Charge in the dome", ["nitrogen", "none"], true),
        quantity("springPressure", "Spring pressure effect", "pressure difference", true),
        quantity("length", "Length", "length", true),
        quantity("weight", "Weight", "weight", true),
      ],
    },
    {
      title: "Card of the shop",
      fields: [
        quantity("card.testRackOpening60F", "Test-rack opening at 60 °F", "pressure", true),
        quantity("card.atmosphere", "Atmosphere in the shop", "absolute pressure", true),
        day("card.day", "Day", true),
        text("card.by", "By", true),
      ],
    },
    {
      title: "Test-rack readings",
      fields: [day("bench.day", "Day", true), text("bench.by", "By", true)],
    },
    {
      title: "Readings, one after the other",
      list: "bench.readings",
      item: "Reading",
      fields: [
        quantity("opening", "Opening pressure", "pressure"),
        quantity("temperature", "Temperature of the valve", "temperature"),
      ],
      blank: () => ({ opening: empty("pressure"), temperature: { value: "60", unit: "degF" } }),
    },
    {
      title: "What befell it before, as far as no log says it",
      list: "history",
      item: "Entry",
      folded: true,
      fields: [
        day("day", "Day"),
        choice("what", "What", ["set", "pulled", "tested", "repaired", "scrapped", "note"]),
        text("where", "Well and mandrel", true),
        choice("condition", "Found, when pulled", pulledConditions, true),
        quantity("setPressure", "Opening on the test rack at 60 degF, when set", "pressure", true),
        text("words", "In words", true),
      ],
      blank: () => ({ day: "", what: "note" }),
    },
    remarks,
  ],
  tools: [
    {
      title: "Tool",
      fields: [
        { kind: "text", path: "serial", label: "Mark on the body", scan: true },
        ...toolFields,
        choice("state", "State", ["in service", "in repair", "scrapped"]),
        day("certificateUntil", "Certificate until", true),
      ],
    },
    remarks,
  ],
  strings: [
    {
      title: "String",
      fields: [
        text("name", "Name"),
        choice("purpose", "For the run", ["gauge", "pull", "set", "catcher"]),
      ],
    },
    {
      title: "Tools, top down",
      list: "tools",
      item: "Tool",
      fields: [...toolFields],
      blank: () => ({
        id: crypto.randomUUID(),
        name: "",
        kind: "other",
        length: empty("length"),
        outsideDiameter: empty("diameter"),
        weight: empty("weight"),
      }),
    },
    remarks,
  ],
  lines: [
    {
      title: "Line",
      fields: [
        text("name", "Name"),
        quantity("diameter", "Diameter", "diameter"),
        quantity("massPerLength", "Weight per length", "mass per length"),
        quantity("breakingStrength", "Breaking strength when new", "force"),
        choice("strengthFrom", "Strength from", ["certificate", "from memory, unverified"]),
        quantity("ropeSocketStrength", "Rope socket strength", "force", true),
        quantity("modulus", "Modulus", "modulus", true),
        quantity("wornDiameter", "Smallest diameter measured along it", "diameter", true),
        choice("sour", "For gas with hydrogen sulfide", sourFitness, true),
        day("lastCutAndTested", "Last cut and tested", true),
      ],
    },
    {
      title: "Cut back",
      list: "cutBack",
      item: "Cut",
      fields: [
        day("day", "Day"),
        quantity("length", "Length taken off", "length"),
        text("why", "Why", true),
      ],
      blank: () => ({ day: "", length: empty("length") }),
    },
    remarks,
  ],
  stacks: [
    { title: "Pressure equipment", fields: [text("name", "Name")] },
    {
      title: "Items, bottom up",
      list: "items",
      item: "Item",
      fields: [
        text("name", "Name"),
        choice("kind", "Kind", [
          "adapter",
          "wire valves",
          "lubricator section",
          "tool catcher",
          "packing",
          "hose or gauge",
        ]),
        quantity("rating", "Rating", "pressure"),
        quantity("bore", "Bore", "diameter", true),
        quantity("usableLength", "Usable length", "length", true),
        day("certificateUntil", "Certificate until", true),
        choice("sour", "Elastomers for gas with hydrogen sulfide", sourFitness, true),
      ],
      blank: () => ({
        id: crypto.randomUUID(),
        name: "",
        kind: "lubricator section",
        rating: empty("pressure"),
      }),
    },
    remarks,
  ],
  policies: [
    { title: "Policy", fields: [text("name", "Name")] },
    {
      title: "Line and string",
      fields: [
        ...policyLimit("lineFraction", "Largest pull, fraction of breaking strength"),
        ...policyLimit("sheaveRatio", "Smallest sheave, wire diameters at least").map(optionally),
        ...policyLimit("pushOutRatio", "Weight over push-out and friction, at least"),
        ...policyLimit("depthAgreement", "Tagged depth may differ by", "length"),
        ...policyLimit("pocketAgreement", "Set depth may differ from pulled depth by", "length"),
      ],
    },
    {
      title: "Levelling",
      fields: [
        ...policyLimit(
          "annulusAboveTubing",
          "Annulus above tubing, at most",
          "pressure difference",
        ),
        ...policyLimit(
          "tubingAboveAnnulus",
          "Tubing above annulus, at most",
          "pressure difference",
        ),
        ...policyLimit("watch", "Watch for", "duration"),
        ...policyLimit("readingAge", "Readings not older than", "duration"),
      ],
    },
    {
      title: "Pressure test",
      fields: [
        ...policyLimit("lowTest", "Low test", "pressure"),
        ...policyLimit("lowTestMost", "Low test, at most", "pressure"),
        ...policyLimit("lowTestHold", "Low test held for", "duration"),
        ...policyLimit("highTestFactor", "High test, times the expected maximum"),
        ...policyLimit("highTestHold", "High test held for", "duration"),
        ...policyLimit("testDropPercent", "Fall allowed, percent"),
        ...policyLimit("lubricatorMargin", "Lubricator margin", "length"),
      ],
    },
    {
      title: "Valve",
      fields: [
        ...policyLimit("setPressureTolerance", "Card may differ by", "pressure difference"),
        ...policyLimit("benchReadings", "Test-rack readings, at least").map(optionally),
        ...policyLimit("benchSpread", "They may differ by", "pressure difference").map(optionally),
        ...policyLimit(
          "temperatureUncertainty",
          "Temperature at the valve may differ by",
          "temperature difference",
        ).map(optionally),
        ...policyLimit(
          "proofDifference",
          "Proof: difference across the valve",
          "pressure difference",
        ),
        ...policyLimit("proofLoss", "Proof: change allowed", "pressure difference"),
      ],
    },
  ],
  jobs: [
    {
      title: "Job",
      fields: [
        day("day", "Day"),
        { kind: "long", path: "reason", label: "Reason" },
        record("replacement", "Replacement valve", "valves"),
        quantity(
          "design.openingAtMandrel",
          "Opening wanted at the mandrel, of the pressure on the bellows",
          "pressure",
          true,
        ),
        quantity(
          "design.productionAtMandrel",
          "Tubing pressure then, for an injection-operated valve",
          "pressure",
          true,
        ),
        quantity(
          "design.injectionAtMandrel",
          "Injection pressure then, for a production-operated valve",
          "pressure",
          true,
        ),
      ],
    },
    {
      title: "Expected on location",
      fields: [
        quantity("expected.wellheadPressure", "Wellhead pressure", "pressure", true),
        quantity(
          "expected.fluidLevelAlongHole",
          "Fluid level in the tubing, along hole",
          "length",
          true,
        ),
        quantity("expected.packingFriction", "Packing friction", "force", true),
        quantity("expected.fluidDensity", "Density of the gas round the string", "density", true),
        quantity(
          "expected.friction",
          "Friction coefficient of wire and string",
          "friction coefficient",
          true,
        ),
      ],
    },
    {
      title: "Unit and line run",
      fields: [
        choice("unit.indicator", "The pull is read at the", ["hay pulley", "counter head"], true),
        quantity("unit.lineAngle", "Angle between the lines at the hay pulley", "line angle", true),
        quantity(
          "unit.calibratedAngle",
          "Angle the indicator is calibrated for",
          "line angle",
          true,
        ),
        quantity("unit.smallestSheave", "Smallest sheave", "diameter", true),
      ],
    },
    {
      title: "Limits of the pull run",
      fields: [
        number("release.mostHits", "Jar hits, at most", true),
        quantity("release.mostPull", "Line pull, at most", "force", true),
        quantity("release.cutBackAfter", "Wire cut back after jarring", "length", true),
        text("release.kickover", "How the kickover tool lets go when it is fast", true),
      ],
    },
    {
      title: "Equipment",
      fields: [
        record("strings.gauge", "Gauge string", "strings", "gauge"),
        record("strings.pull", "Pull string", "strings", "pull"),
        record("strings.set", "Set string", "strings", "set"),
        record("strings.catcher", "Catcher string, where one is set", "strings", "catcher"),
        record("line", "Line", "lines"),
        record("stack", "Pressure equipment", "stacks"),
        record("policy", "Policy", "policies"),
      ],
    },
    {
      title: "Running-tool pins",
      fields: [
        choice("pins.material", "Material", ["brass", "steel", "aluminium", "not known"], true),
        number("pins.count", "Count", true),
        quantity("pins.diameter", "Diameter", "diameter", true),
        number("pins.planes", "Planes each, 1 or 2", true),
        quantity("pins.strength", "Shear strength of the batch", "pressure difference", true),
        text("pins.batch", "Batch", true),
      ],
    },
    {
      title: "People",
      fields: [
        text("crew.supervisor", "Wireline supervisor", true),
        text("crew.fieldOperator", "Field operator", true),
        text("crew.engineer", "Production engineer", true),
      ],
    },
    remarks,
  ],
};
