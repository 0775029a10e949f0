import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { inSumOf } from "../../src/jobs/diagnosis/inSum.ts";
import type {
  NextMeasurement,
  Ranked,
  Ranking,
  Weighed,
} from "../../src/jobs/diagnosis/ranking.ts";
import { writer } from "../../src/jobs/display.ts";
import type { Investigation } from "../../src/jobs/records/investigation.ts";
import { Answer } from "../../src/ui/WhichValve/Answer.tsx";
import { Pictures } from "../../src/ui/WhichValve/Pictures.tsx";
import { investigationOf, pressures, soundValves, wellWith } from "../jobs/diagnosis/liftWell.ts";
import { oneRanked } from "../jobs/diagnosis/oneRanked.ts";

const line = (says: string, weight: number): Weighed => ({
  evidence: says,
  kind: "pressures",
  says,
  weight,
});
const answer = (title: string, mandrel: number, probability: number, lines: Weighed[]): Ranked =>
  oneRanked(
    title,
    probability,
    { kind: "stuck open", mandrel },
    {
      speaksFor: lines.filter(({ weight }) => weight > 0.2),
      speaksAgainst: lines.filter(({ weight }) => weight < -0.2),
      speaksNeither: lines.filter(({ weight }) => Math.abs(weight) <= 0.2),
    },
  );
const ranking = (ranked: readonly Ranked[], of: Partial<Ranking> = {}): Ranking => ({
  ranked,
  noneOfThese: 0.02,
  verdict: "two or more",
  says: "Two stand close together.",
  inSum: inSumOf(ranked),
  saysInSum: undefined,
  next: [],
  unused: [],
  assumed: [],
  ...of,
});
const measurement = (kind: NextMeasurement["kind"], what: string): NextMeasurement => ({
  kind,
  what,
  between: ["At 1", "At 2"],
  ifFirst: "a",
  ifSecond: "b",
  separation: 3,
  settles: 0.5,
});
const inOrder = investigationOf(pressures(742, 128), {
  id: "supply",
  kind: "supply",
  at: "2026-11-20T09:00:00.000Z",
  source: "meter",
  confidence: "good",
  found: "in order",
});

/** The page's words, a line for each element. */
function words(of: Ranking, investigation: Investigation = inOrder): string {
  const markup = renderToStaticMarkup(
    <Answer
      now={{ answer: { is: "there", ranking: of }, cancel: () => {}, again: () => {} }}
      investigation={investigation}
      well={wellWith(soundValves)}
    />,
  );
  return markup.replaceAll(/<[^>]+>/g, "\n").replaceAll(/\n+/g, "\n");
}

describe("what the evidence says", () => {
  it("puts what speaks neither way under neither, and says what it is held against", () => {
    const lines = [line("casing", 1), line("tubing", -0.01), line("rate", 0.1), line("heads", -2)];
    const said = words(ranking([answer("First", 1, 0.5, lines), answer("Second", 2, 0.4, [])]));
    expect(said).toMatch(/Held against: \nSecond\n\.|Held against: Second\./);
    const parts = ["Speaks for it", "Speaks against it", "Speaks neither way"].map((title) =>
      said.indexOf(title),
    );
    const under = (says: string) => parts.findLastIndex((start) => start < said.indexOf(says));
    expect(["casing", "heads", "tubing", "rate"].map(under)).toEqual([0, 1, 2, 2]);
  });

  it("names the pocket that all likely answers share, and does not stop the crew for it", () => {
    const said = words(
      ranking([answer("Stuck open 3", 3, 0.5, []), answer("Set too low 3", 3, 0.4, [])]),
    );
    expect(said).toMatch(/Same pocket\./);
    expect(said).toMatch(/Mandrel \n?3\n? is worked in all that is likely/);
    expect(said).not.toMatch(/Stop\./);
  });

  it("says how likely the pocket is once, beside what is said in sum", () => {
    const saysInSum = "Something is wrong at mandrel 3, about 9 in 10 in sum.";
    const said = words(
      ranking([answer("Stuck open 3", 3, 0.5, []), answer("Set too low 3", 3, 0.4, [])], {
        saysInSum,
      }),
    );
    expect(said.match(/about 9 in 10/g)).toHaveLength(1);
    expect(said).toMatch(
      /Mandrel 3 is worked whichever of them it is\. What comes out tells which/,
    );
  });

  it("says which two answers a measurement tells apart", () => {
    const said = words(
      ranking(
        [
          answer("First at 1", 1, 0.5, []),
          answer("Also at 1", 1, 0.2, []),
          answer("At 2", 2, 0.2, []),
        ],
        { next: [{ ...measurement("survey", "Run a survey"), between: ["First at 1", "At 2"] }] },
      ),
    );
    expect(said).toMatch(/If \n?First at 1\n?: \n?a/);
    expect(said).toMatch(/If \n?At 2\n?: \n?b/);
  });

  it("puts no other measurement before readings that fit nothing", () => {
    const said = words(
      ranking([answer("At 1", 1, 0.01, []), answer("At 2", 2, 0.01, [])], {
        verdict: "nothing fits",
        next: [measurement("survey", "Run a survey")],
      }),
    );
    expect(said.indexOf("Run a survey")).toBeGreaterThan(said.indexOf("None of these"));
  });

  it("asks for no measurement where it names none", () => {
    const two = [answer("At 1", 1, 0.5, []), answer("At 2", 2, 0.4, [])];
    expect(words(ranking(two))).toMatch(/Stop\.\nNo measurement that is not here yet/);
    const next = [measurement("survey", "Run a survey")];
    expect(words(ranking(two, { next }))).toMatch(/Stop\.\nTake the next best measurement/);
  });

  it("sends to the surface first where nobody has looked there, once", () => {
    const two = [answer("At 1", 1, 0.5, []), answer("At 2", 2, 0.4, [])];
    const gauges = investigationOf(pressures(742, 128));
    expect(words(ranking(two), gauges)).toMatch(/Surface first\./);
    const next = [measurement("supply", "Look at the choke")];
    expect(words(ranking(two, { next }), gauges)).not.toMatch(/Surface first\./);
    // Folded away under one answer, the measurement does not say it.
    expect(words(ranking(two, { next, verdict: "one answer" }), gauges)).toMatch(/Surface first\./);
  });

  it("has what was found at surface mended before anything is measured", () => {
    const frozen = investigationOf(pressures(600, 128), {
      id: "supply",
      kind: "supply",
      at: "2026-11-20T09:00:00.000Z",
      source: "meter",
      confidence: "good",
      found: "frozen",
    });
    const next = [measurement("supply", "Look at the choke")];
    const said = words(
      ranking([answer("At 1", 1, 0.5, []), answer("At 2", 2, 0.4, [])], { next }),
      frozen,
    );
    expect(said).toMatch(/Surface first\.\nThe choke was found frozen\./);
    expect(said).not.toMatch(/Stop\./);
    expect(said.indexOf("Look at the choke")).toBeGreaterThan(said.indexOf("None of these"));
  });
});

describe("what would be seen if it were", () => {
  it("draws each of three answers in a line of its own", () => {
    const profile = [0, 1500].map((depth) => ({
      depth,
      pressure: { mean: 1e6 + 4000 * depth, spread: 1e5 },
      temperature: undefined,
    }));
    const three = [1, 2, 3].map((mandrel) => {
      const each = answer(`Stuck open ${mandrel}`, mandrel, 0.3, []);
      return { ...each, predicted: { ...each.predicted, profile } };
    });
    const markup = renderToStaticMarkup(
      <Pictures
        investigation={inOrder}
        ranking={ranking(three)}
        hasStream={true}
        path={undefined}
        levels={[]}
        bands={[]}
        results={undefined as never}
        jobs={[]}
        writer={writer("field")}
      />,
    );
    const drawn = new Set(markup.match(/depth-line calculated[a-z ]*/g));
    expect(drawn).toEqual(
      new Set([
        "depth-line calculated",
        "depth-line calculated dashed",
        "depth-line calculated dotted",
      ]),
    );
  });
});
