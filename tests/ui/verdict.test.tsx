import { renderToStaticMarkup } from "react-dom/server";
import { expect, it } from "vitest";
import { writer } from "../../src/jobs/display.ts";
import { verdictOf } from "../../src/jobs/verdict/verdict.ts";
import { Verdict } from "../../src/ui/Review/Verdict.tsx";
import { Tablet } from "../jobs/demo.ts";

it("says what was read as it was typed, and beside it in the unit that the checks speak of", () => {
  const { state } = new Tablet().start().runTo("line-left");
  const shown = (system: "field" | "metric") => {
    const own = writer(system);
    const verdict = verdictOf(state, own);
    if (!verdict) throw new Error("no verdict");
    return renderToStaticMarkup(<Verdict verdict={verdict} writer={own} />);
  };
  expect(shown("field")).toContain("injection 868 psig, production 262 psig at surface");
  const metric = shown("metric");
  expect(metric).toContain("injection 868 psig (59.8 barg)");
  expect(metric).toContain("59.8 barg was read");
});
