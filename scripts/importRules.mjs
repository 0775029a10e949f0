import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { cruise } from "dependency-cruiser";
import { root } from "./project.mjs";

/** Imports, type imports and tests included, run one way: ui → jobs → calc. */
const forbidden = [
  {
    name: "calc knows nothing else",
    severity: "error",
    from: { path: "^src/calc/" },
    to: { pathNot: "^src/calc/" },
  },
  {
    name: "jobs do not know the ui",
    severity: "error",
    from: { path: "^(src/jobs|demo-data)/" },
    to: { path: ["^src/ui/", "node_modules/(react|react-dom|wouter|dexie-react-hooks)/"] },
  },
  {
    name: "screens keep nothing themselves",
    severity: "error",
    from: { path: "^src/ui/", pathNot: "^src/ui/main\\.tsx$" },
    to: { path: ["node_modules/dexie/", "^src/jobs/store/dexieStore\\.ts$"] },
  },
  {
    name: "sources stand without tests, scripts and demonstration code",
    severity: "error",
    from: { path: "^src/" },
    to: { path: "^(tests|scripts|demo-data)/", pathNot: "\\.json" },
  },
  {
    name: "tests of calc know calc only",
    severity: "error",
    from: { path: "^tests/calc/" },
    to: { path: "^(src/(jobs|ui)|demo-data|tests/(jobs|ui|browser))/" },
  },
  {
    name: "tests of jobs do not know the ui",
    severity: "error",
    from: { path: "^tests/jobs/" },
    to: { path: "^(src/ui|tests/(ui|browser))/" },
  },
  {
    name: "the second opinion on lift knows nothing of the first",
    severity: "error",
    from: { path: "^tests/diagnosis/forward/" },
    to: {
      path: "^(src|tests|demo-data)/",
      pathNot:
        "^(tests/diagnosis/forward/|src/jobs/records/|src/jobs/quantity\\.ts$|src/jobs/diagnosis/ranking\\.ts$)",
    },
  },
  {
    name: "no circles",
    severity: "error",
    from: { path: "^src/" },
    to: {
      circular: true,
      dependencyTypesNot: ["type-only"],
      viaOnly: { dependencyTypesNot: ["type-only"] },
    },
  },
];

async function check(folder, folders) {
  const { output } = await cruise(
    folders,
    {
      baseDir: folder,
      validate: true,
      ruleSet: { forbidden },
      tsPreCompilationDeps: true,
      doNotFollow: { path: "node_modules" },
    },
    { extensions: [".ts", ".tsx", ".mjs", ".js", ".json"] },
  );
  return output.summary;
}

/** Imports that must be caught, each by the rule it breaks. */
const planted = [
  ["src/calc/planted.ts", 'import type { X } from "../jobs/x.ts";', "calc knows nothing else"],
  ["src/calc/packaged.ts", 'import { readFileSync } from "node:fs";', "calc knows nothing else"],
  ["src/jobs/planted.ts", 'import type { X } from "../ui/x.ts";', "jobs do not know the ui"],
  [
    "tests/calc/planted.ts",
    'import type { X } from "../../src/jobs/x.ts";',
    "tests of calc know calc only",
  ],
  [
    "src/ui/planted.ts",
    'import { openDexieStore } from "../jobs/store/dexieStore.ts";',
    "screens keep nothing themselves",
  ],
  [
    "src/jobs/tested.ts",
    'import { y } from "../../tests/y.ts";',
    "sources stand without tests, scripts and demonstration code",
  ],
  [
    "tests/diagnosis/forward/planted.ts",
    'import { x } from "../../../src/jobs/x.ts";',
    "the second opinion on lift knows nothing of the first",
  ],
  ["src/jobs/circle.ts", 'import { c } from "./round.ts"; export const x = c;', "no circles"],
  [
    "tests/jobs/planted.ts",
    'import { x } from "../../src/ui/x.ts";',
    "tests of jobs do not know the ui",
  ],
];

/** A throw-away tree with wrong imports: a check that lets them pass checks nothing. */
async function checkPlanted() {
  const folder = mkdtempSync(join(tmpdir(), "latchline-planted-"));
  try {
    const files = {
      "src/jobs/x.ts": "export type X = 1;",
      "src/ui/x.ts": "export type X = 1; export const x = 1;",
      "src/jobs/store/dexieStore.ts": "export const openDexieStore = 1;",
      "src/jobs/round.ts": 'import { x } from "./circle.ts"; export const c = x;',
      "tests/y.ts": "export const y = 1;",
    };
    for (const [file, text] of [...Object.entries(files), ...planted]) {
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), `${text}\n`);
    }
    const { violations } = await check(folder, ["src", "tests"]);
    return planted.filter(
      ([file, , rule]) => !violations.some((each) => each.from === file && each.rule.name === rule),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/**
 * Checks the direction of every import, and that the check itself bites.
 *
 * @returns {Promise<string[]>} what is wrong; empty when nothing is
 */
export async function importProblems() {
  const { violations, totalCruised } = await check(root, ["src", "tests", "demo-data"]);
  const problems = violations.map((each) => `${each.rule.name}: ${each.from} → ${each.to}`);
  // With a TypeScript it does not know, the tool passes in silence on nothing.
  if (totalCruised < 100) problems.push(`only ${totalCruised} modules were looked at`);
  const missed = await checkPlanted();
  return [
    ...problems,
    ...missed.map(([file, text]) => `a planted wrong import was not caught: ${file}: ${text}`),
  ];
}
