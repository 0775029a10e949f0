import {
  answer,
  bothGauges,
  check,
  choice,
  count,
  hold,
  mustBeYes,
  person,
  quantity,
  signature,
  step,
  words,
} from "../parts.ts";
import type { Phase } from "../sheet.ts";

export const readySite: Phase = {
  id: "ready",
  title: "Ready the site",
  items: [
    step({
      id: "permit",
      title: "Permit and programme",
      instruction:
        "Read the permit and the programme's revision on location. Work on this revision only. Check simultaneous work, lifting plan and weather limit.",
      fields: [
        words("permit-number", "Permit number"),
        mustBeYes(
          "programme-read",
          "Programme read by the whole crew",
          "Read the programme with everybody first.",
        ),
      ],
    }),
    step({
      id: "briefing",
      title: "Briefing",
      instruction:
        "Talk the job through: who does what, escape and muster, exclusion area round the line, who shuts in and who cuts in an emergency. Test for gas.",
      caution: "H2S and flammable gas. Nobody crosses the line. Anyone may stop the job.",
      fields: [
        count("people", "People on location"),
        choice("gas-test", "Gas test", [
          ["clear", "Clear"],
          ["gas", "Gas found", { stop: "Gas was found. Stop, find the source, test again." }],
        ]),
      ],
    }),
    step({
      id: "lift-gas-off",
      title: "Isolate injection gas",
      instruction:
        "The field operator closes, locks and tags the injection gas, tries that none passes, and agrees who alone may restore it.",
      fields: [
        mustBeYes(
          "lift-gas-locked",
          "Isolated, locked, tagged and tried",
          "Injection gas is not isolated. The field operator closes and locks it first.",
        ),
        person("lift-gas-keeper", "Who alone may restore it"),
      ],
    }),
    step({
      id: "safety-valves",
      title: "Hold the safety valves open",
      instruction:
        "Hold the subsurface safety valve open and watch its control pressure: the wire lies across it. Guard the surface valves against closing by accident, under permit, control in the crew's hand.",
      caution:
        "Emergency closure and cutting stay available as the last resort. Nothing is disabled.",
      answers: ["safety valves as recorded"],
      fields: [
        choice("safety-valves-held", "Subsurface safety valve", [
          ["held", "Held open and guarded"],
          ["none", "None in this well"],
          [
            "not held",
            "Not held",
            { stop: "A safety valve that closes cuts the wire. Hold it open and guard it first." },
          ],
        ]),
        quantity("control-pressure", "Control pressure of the safety valve", "pressure", {
          optional: true,
        }),
        choice("surface-valves", "Surface safety valves", [
          ["guarded", "Guarded under permit"],
          ["none", "None on this tree"],
          [
            "not guarded",
            "Not guarded",
            {
              stop: "A surface valve that closes by accident cuts the wire. Guard it under permit first.",
            },
          ],
        ]),
        mustBeYes(
          "closure-ready",
          "Emergency closure ready, and everybody knows who gives the word",
          "Guarding takes nothing away: emergency closure and cutting stay ready, and everybody knows on whose word.",
        ),
      ],
    }),
    step({
      id: "as-found",
      title: "Pressures as found",
      instruction: "Read both gauges at one moment, and note which gauges they are.",
      fields: [...bothGauges("as-found"), words("gauges", "Gauge numbers", true)],
    }),
    hold({
      id: "permit-hold",
      title: "Permit and briefing",
      purpose: "Before anything is rigged up.",
      caution:
        "This sheet informs a competent crew. Permit system, local regulation and makers' limits come first.",
      conditions: [
        {
          kind: "reading",
          id: "permit-entered",
          text: "Permit number entered",
          field: "permit-number",
        },
        answer(
          "programme-read-yes",
          "programme-read",
          ["yes"],
          "Programme read by the whole crew",
          "Read the programme with everybody first.",
        ),
        answer(
          "gas-clear",
          "gas-test",
          ["clear"],
          "Gas test clear",
          "Gas was found. Stop, find the source, test again.",
        ),
        answer(
          "lift-gas-locked-yes",
          "lift-gas-locked",
          ["yes"],
          "Injection gas isolated, locked, tagged and tried",
          "Injection gas is not isolated. The field operator closes and locks it first.",
        ),
        check(
          "safety-valves-ok",
          "safety valves as recorded",
          "Subsurface safety valve held and guarded, or none in the well",
          { answer: "safety-valves-held" },
          ["production engineer"],
        ),
        answer(
          "surface-valves-ok",
          "surface-valves",
          ["guarded", "none"],
          "Surface safety valves guarded under permit",
          "A surface valve that closes by accident cuts the wire. Guard it under permit first.",
        ),
        answer(
          "closure-ready-ok",
          "closure-ready",
          ["yes"],
          "Emergency closure stays ready",
          "Guarding takes nothing away: emergency closure and cutting stay ready, and everybody knows on whose word.",
        ),
        signature("field operator", "Field operator agrees: gas locked, well handed to the crew"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "measure-strings",
    }),
  ],
};
