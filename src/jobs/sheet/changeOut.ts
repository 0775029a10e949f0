import {
  answer,
  barriers,
  bothGauges,
  check,
  choice,
  count,
  hold,
  quantity,
  signature,
  step,
  words,
} from "./parts.ts";
import type { Phase, Sheet } from "./sheet.ts";

/**
 * Change-out of one gas-lift valve: gauge, level, pull, set, prove, hand back. How crews do it is
 * common practice; the site's permit system, local regulation, the operator's programme and the
 * makers' limits come first.
 */

const yesNo = [
  ["yes", "Yes"],
  ["no", "No"],
] as const;

const ready: Phase = {
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
        choice("programme-read", "Programme read by the whole crew", yesNo),
      ],
    }),
    step({
      id: "briefing",
      title: "Briefing",
      instruction:
        "Talk the job through with everybody: who does what, escape and muster, exclusion area round the line, who shuts in and who cuts in an emergency. Test for gas.",
      caution: "H2S and flammable gas. Nobody crosses the line. Anyone may stop the job.",
      fields: [
        count("people", "People on location"),
        choice("gas-test", "Gas test", [
          ["clear", "Clear"],
          ["gas", "Gas found"],
        ]),
      ],
    }),
    step({
      id: "lift-gas-off",
      title: "Isolate injection gas",
      instruction:
        "The field operator closes, locks and tags the injection gas, and agrees who alone may restore it.",
      fields: [
        choice("lift-gas-locked", "Isolated, locked and tagged", yesNo),
        words("lift-gas-keeper", "Who may restore it"),
      ],
    }),
    step({
      id: "safety-valves",
      title: "Hold the safety valves open",
      instruction:
        "Hold the subsurface safety valve open and watch its control pressure: the wire lies across it. Guard the surface safety valves against closing by accident, under permit.",
      caution:
        "Emergency closure and cutting stay available as the last resort. Nothing is disabled.",
      fields: [
        choice("safety-valves-held", "Safety valves", [
          ["held", "Held and guarded"],
          ["none", "None in this well"],
          ["not held", "Not held"],
        ]),
      ],
    }),
    step({
      id: "as-found",
      title: "Pressures as found",
      instruction: "Read both gauges at one moment, and note what the gauges are.",
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
          "Injection gas isolated, locked and tagged",
          "Injection gas is not isolated. The field operator closes and locks it first.",
        ),
        answer(
          "safety-valves-ok",
          "safety-valves-held",
          ["held", "none"],
          "Safety valves held and guarded, or none in the well",
          "A safety valve that closes cuts the wire. Hold it open and guard it first.",
        ),
        signature("field operator", "Field operator agrees: gas locked, well handed to the crew"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "measure-strings",
    }),
  ],
};

const rigUp: Phase = {
  id: "rig-up",
  title: "Rig up and prove",
  items: [
    step({
      id: "measure-strings",
      title: "Measure and draw the strings",
      instruction:
        "Measure every part: length closed and extended, diameter, fishing neck. Photograph the laid-out strings. A part without dimensions does not go in.",
      expect: "The figures of the brief. Any difference changes what fits and what can be fished.",
      caution: "Pinched fingers, falling stem.",
      fields: [choice("strings-measured", "Strings as in the programme", yesNo)],
    }),
    ...barriers("first", "the tree cap comes off", "stack-up", false),
    step({
      id: "stack-up",
      title: "Cap off, stack up",
      instruction:
        "Take the cap off. Make up adapter, wire valves, lubricator, catcher and packing. Function-test the wire valves: rams of this wire size, on still wire. Guy it or hang it on the crane.",
      caution: "Lifting. Nobody under the load. Wind above the limit stops the lift.",
      fields: [choice("wire-valves-work", "Wire valves function-tested", yesNo)],
    }),
    step({
      id: "low-test",
      title: "Low pressure test",
      instruction:
        "Fill with liquid, vent the air, pump to the low test pressure against the closed crown valve. Hold and watch.",
      caution:
        "Stand clear of the stack while it is under test. A leak is bled off, never tightened under pressure.",
      fields: [
        quantity("low-start", "Pressure at the start", "pressure"),
        quantity("low-end", "Pressure at the end", "pressure"),
        quantity("low-held", "Time held", "duration"),
      ],
    }),
    step({
      id: "high-test",
      title: "High pressure test",
      instruction:
        "Pump to the test pressure and hold. Keep the chart. The string does not hang on a union that is tested.",
      caution: "Never above the lowest rating in the stack, hose and gauge included.",
      fields: [
        quantity("high-start", "Pressure at the start", "pressure", {
          expected: "test-pressure",
          most: "lowest-rating",
        }),
        quantity("high-end", "Pressure at the end", "pressure"),
        quantity("high-held", "Time held", "duration"),
      ],
    }),
    hold({
      id: "pressure-test-hold",
      title: "Stack pressure-tested",
      purpose: "Before well pressure is let into the stack.",
      conditions: [
        check(
          "wire-valves-there",
          "wire valves in the stack",
          "Wire valves in the stack",
          undefined,
          ["production engineer", "well owner's representative"],
        ),
        answer(
          "wire-valves-tested",
          "wire-valves-work",
          ["yes"],
          "Wire valves function-tested",
          "The wire valves were not function-tested, or did not work. Mend that first.",
        ),
        check("rating", "stack covers the test pressure", "Lowest rating covers the test pressure"),
        check("lubricator", "lubricator length", "Longest string fits with the valve on"),
        check("low", "low test", "Low test held", {
          start: "low-start",
          end: "low-end",
          held: "low-held",
        }),
        check("high", "high test", "High test held", {
          start: "high-start",
          end: "high-end",
          held: "high-held",
        }),
        signature("well owner's representative", "Well owner's representative has seen the test"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "let-in",
    }),
    step({
      id: "let-in",
      title: "Let well pressure in",
      instruction:
        "Gauge string in the lubricator. Inhibitor in if the gas is wet. Equalise over the needle valve, count the seconds, then open the crown valve slowly with full turns counted. Read both gauges.",
      expect: "Pressure in the stack rises to the wellhead pressure and stays.",
      caution:
        "Wet gas that is throttled cools and can freeze. A union is never broken on a suspected plug.",
      fields: [count("open-turns", "Turns of the crown valve to open"), ...bothGauges("let-in")],
      string: "gauge",
      stringAt: "surface",
    }),
    hold({
      id: "push-out-hold",
      title: "Weight beats push-out",
      purpose: "Before the string leaves the lubricator.",
      conditions: [
        check(
          "push-out-ok",
          "push-out beaten",
          "Effective weight beats push-out and packing friction",
        ),
        check("bore-ok", "clear bore", "Largest tool clears the narrowest bore"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "zero",
    }),
  ],
};

const gauge: Phase = {
  id: "gauge",
  title: "Gauge run",
  items: [
    step({
      id: "zero",
      title: "Zero the counter",
      instruction:
        "A named point of the string at a named reference, counter set to the depth reference. A second person looks.",
      fields: [words("zero-at", "Zero taken at"), words("zero-seen", "Second person")],
      string: "gauge",
      stringAt: "surface",
    }),
    step({
      id: "friction",
      title: "Feel the packing",
      instruction:
        "In the first 100 ft, dead slow: note the line pull moving in and moving out. Half of the difference is packing friction.",
      expect: "The balance of weight and push-out is worked out again from what you read.",
      fields: [
        quantity("pull-in", "Line pull moving in", "force", { channel: "pull going in" }),
        quantity("pull-out", "Line pull moving out", "force", { channel: "pull coming out" }),
      ],
      string: "gauge",
      stringAt: "surface",
    }),
    step({
      id: "gauge-down",
      title: "Run the gauge below the mandrel",
      instruction:
        "Dead slow through tree, hanger, safety valve, nipples and mandrels. Stop every 1,000 to 2,000 ft and note hanging, pick-up and slack-off. Pass the target twice. Mark the fluid level.",
      expect:
        "At the fluid level weight falls a little and the string falls more slowly. Sitting down: weight goes while the counter still turns. Stop at once.",
      caution: "Slack wire makes a nest in seconds.",
      fields: [
        quantity("gauge-diameter", "Diameter of the gauge", "diameter", {
          channel: "gauge diameter",
        }),
        quantity("gauge-depth", "Deepest point reached, along hole", "length", {
          channel: "gauge depth reached",
        }),
        quantity("fluid-level", "Fluid level, along hole", "length", { channel: "fluid level" }),
        quantity("hanging", "Line pull hanging at the mandrel", "force", { most: "largest-pull" }),
      ],
      string: "gauge",
      stringAt: "below mandrel",
    }),
    step({
      id: "tag",
      title: "Prove the right pocket",
      instruction:
        "Tag the mandrels above and below the target, then the target. Correct the counter with a known nipple or the end of tubing.",
      caution: "A wrong pocket costs days. Depth from paper is not depth.",
      fields: [
        quantity("tag-target", "Target mandrel tagged, along hole", "length", {
          channel: "tagged mandrel depth",
        }),
        choice("neighbours", "Neighbouring mandrels tagged where the schematic has them", [
          ["yes", "Yes"],
          ["only one", "Only one there is"],
          ["no", "No"],
        ]),
      ],
      string: "gauge",
      stringAt: "mandrel",
    }),
    step({
      id: "gauge-out",
      title: "Come out, read the gauge",
      instruction:
        "Count down to surface, slow for the last 200 ft, feel the catcher. Look at what is on the gauge before it is wiped.",
      fields: [
        choice("gauge-found", "On the gauge", [
          ["clean", "Clean"],
          ["wax", "Wax or paraffin"],
          ["scale", "Scale"],
          ["sand", "Sand"],
          ["metal", "Metal marks"],
        ]),
      ],
      string: "gauge",
      stringAt: "surface",
    }),
    hold({
      id: "depth-hold",
      title: "Bore and depth proved",
      purpose: "Before the pull string goes in.",
      conditions: [
        check(
          "gauge-passes",
          "gauge proves the bore",
          "Gauge as large as the tools passed below the mandrel",
          {
            diameter: "gauge-diameter",
            depth: "gauge-depth",
          },
        ),
        check(
          "depth-ok",
          "depth agrees",
          "Tagged depth agrees with the schematic",
          { tagged: "tag-target" },
          ["production engineer"],
        ),
        answer(
          "neighbours-ok",
          "neighbours",
          ["yes", "only one"],
          "Neighbouring mandrels tagged",
          "The neighbours do not lie where the schematic has them: this may be another pocket. Tag again.",
          ["production engineer"],
        ),
        answer(
          "gauge-clean",
          "gauge-found",
          ["clean", "wax", "scale", "sand"],
          "No metal marks on the gauge",
          "Metal marks: take an impression, the engineer decides.",
          ["production engineer"],
        ),
        check("kickover", "kickover tool matches", "Kickover tools match the mandrel"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "pull-string-on",
    }),
    ...barriers("second", "the lubricator is broken to change strings", "pull-string-on", true),
  ],
};

const pull: Phase = {
  id: "pull",
  title: "Pull run",
  items: [
    step({
      id: "pull-string-on",
      title: "Pull string on",
      instruction:
        "Make up the pull string with kickover tool and pulling tool. Check shear pins and shear direction, the arm's lock, knuckle free. Re-make the lubricator, test the broken union, equalise and open.",
      caution: "A union that was broken is tested again before it sees the well.",
      fields: [
        choice("pull-union", "Broken union tested", yesNo),
        words("pull-pins", "Pulling tool pins: material, count, shear direction"),
      ],
      string: "pull",
      stringAt: "surface",
    }),
    step({
      id: "level-first",
      title: "Bring annulus and tubing level at the mandrel",
      instruction:
        "By the agreed route bring the casing to the pressure shown. Equal at surface is not equal at the mandrel. Then read both gauges at one moment.",
      expect: "The difference at the mandrel is worked out from what you read.",
      caution: "Bleed only where the permit allows. H2S, ignition, freezing at the choke.",
      fields: [
        choice("level-route", "Route", [
          ["waited", "Shut in and waited"],
          ["bled annulus", "Bled the annulus"],
          ["jumper", "Equalised through a jumper"],
          ["gas to tubing", "Gas into the tubing"],
          ["filled", "Filled the tubing"],
        ]),
        ...bothGauges("level-first"),
      ],
      string: "pull",
      stringAt: "surface",
    }),
    step({
      id: "locate",
      title: "Run in and find the pocket",
      instruction:
        "Run to 10 to 30 ft below the sleeve, pick up slowly until the key takes. With a tool for a mandrel without sleeve, work it by depth and feel. Kick over, slack down onto the latch.",
      expect:
        "Over-pull of 100 to 300 lbf when the key takes (common practice), then a small jump; weight lost when it rests on the latch.",
      fields: [
        quantity("pocket-depth", "Depth resting on the latch, along hole", "length"),
        quantity("key-pull", "Largest line pull with the key in the sleeve", "force", {
          most: "largest-pull",
          optional: true,
        }),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "latch-on",
      title: "Latch on",
      instruction:
        "Tap down with a few short strokes, then take a light pull. If it stays, the tool is latched.",
      expect: "The pull holds. What the indicator shows is a sign, not proof.",
      fields: [
        quantity("latch-pull", "Line pull taken", "force", {
          expected: "hanging-pull",
          most: "largest-pull",
        }),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "level-last",
      title: "Read both gauges again",
      instruction:
        "After the watch, before the first blow: read casing and wellhead pressure at one moment.",
      expect: "Still within the band. If it moved, the leak that is being cured refills it.",
      fields: bothGauges("level-last"),
      string: "pull",
      stringAt: "mandrel",
    }),
    hold({
      id: "level-hold",
      title: "Level before unseating",
      purpose: "Before the valve is jarred out of its pocket.",
      caution:
        "Once a packing leaves its bore the whole difference acts on the valve and gas rushes past the string: it can blow up the hole, ball the wire or part it.",
      conditions: [
        check(
          "level-now",
          "levelled",
          "Annulus and tubing within the band at the mandrel, on both sides",
          undefined,
          ["production engineer"],
        ),
        check("level-steady", "steady", "Steady for the watch time", undefined, [
          "production engineer",
        ]),
        check("level-fresh", "fresh", "Pressures are fresh"),
        signature("field operator", "Field operator agrees on these pressures"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "jar-out",
    }),
    step({
      id: "jar-out",
      title: "Jar the valve out",
      instruction:
        "Jar up with rising strokes, within the programme's limit of pull and hits. Shift the depth at the sheaves after many hits. When it is free, stop and watch both gauges.",
      expect:
        "Over-pull gone; the string moves up smoothly. A surge means the pressures were not level.",
      caution: "A valve weighs less than the noise of the indicator. Its weight proves nothing.",
      fields: [
        count("pull-hits", "Jar hits"),
        quantity("pull-largest", "Largest line pull", "force", { most: "largest-pull" }),
        choice("pull-free", "Came free", [
          ["quiet", "Free, no surge"],
          ["surge", "Free, with a surge"],
        ]),
        quantity("free-casing", "Casing pressure when free", "pressure"),
        quantity("free-wellhead", "Wellhead pressure when free", "pressure"),
      ],
      string: "pull",
      stringAt: "mandrel",
    }),
    step({
      id: "pull-out",
      title: "Come out with the valve",
      instruction:
        "Slow where the arm has to fold, at safety valve and hanger and for the last 200 ft. Count every tool at surface before the crown valve closes.",
      fields: [choice("pull-all-out", "All tools counted in the lubricator", yesNo)],
      string: "pull",
      stringAt: "surface",
    }),
    ...barriers("third", "the lubricator is opened to take the valve", "inspect", true),
    step({
      id: "inspect",
      title: "Look at the pulled valve",
      instruction:
        "Before it is cleaned: photograph it, read its serial, look at latch, both packing stacks, check, port and stem, body, bellows. Count every part.",
      caution:
        "The dome may hold its charge: never heat or clamp it. Sharp edges. H2S in what drips off.",
      fields: [
        words("pulled-serial", "Serial of the pulled valve"),
        choice("pulled-complete", "Valve complete", [
          ["complete", "Complete, nothing missing"],
          ["missing", "A part is missing"],
        ]),
        choice("pulled-condition", "Condition", [
          ["port cut", "Port or stem cut"],
          ["check open", "Check stuck or cut"],
          ["charge lost", "Bellows or charge lost"],
          ["packing", "Packing damaged"],
          ["plugged", "Plugged or scaled"],
          ["good", "Looks good"],
        ]),
        words("pulled-words", "In words", true),
      ],
    }),
  ],
};

const replace: Phase = {
  id: "replace",
  title: "Replacement",
  items: [
    step({
      id: "card",
      title: "Valve against card",
      instruction:
        "Read the serial on the body and the set pressure on the shop's card. Tag, card and programme must say the same.",
      caution: "Dome pressure in a valve in the hand: never heat or clamp the dome.",
      fields: [
        words("new-serial", "Serial on the body"),
        quantity("new-card", "Test-rack opening at 60 °F on the card", "pressure", {
          channel: "card set pressure",
          expected: "test-rack-needed",
          optional: true,
        }),
      ],
    }),
    step({
      id: "fit",
      title: "Latch, packing, check, running tool",
      instruction:
        "Latch made for this profile; packing whole and of a material fit for the fluid; check moves; the running tool holds the latch.",
      fields: [
        choice("new-latch", "Latch fits the profile", yesNo),
        choice("new-packing", "Packing whole and greased", yesNo),
      ],
    }),
    step({
      id: "pins",
      title: "Shear pins of the running tool",
      instruction:
        "Look at the pins, compare with the batch certificate, count them. A second person witnesses. Photograph.",
      expect:
        "Brass, which shears by upward jarring once the valve is latched (common practice). Temper matters: the batch or the maker's shear value counts, not the word alone.",
      caution:
        "A steel pin may not shear and leaves the string fast to a seated valve; aluminium may shear while seating.",
      fields: [
        choice("pin-material", "Pin material", [
          ["brass", "Brass"],
          ["steel", "Steel"],
          ["aluminium", "Aluminium"],
          ["not known", "Not known"],
        ]),
        count("pin-count", "Number of pins"),
        words("pin-batch", "Batch or certificate"),
        words("pin-witness", "Witness"),
      ],
    }),
    hold({
      id: "replacement-hold",
      title: "Replacement verified",
      purpose: "Before the set string goes in.",
      conditions: [
        answer(
          "old-complete",
          "pulled-complete",
          ["complete"],
          "The pulled valve is complete",
          "A part is missing: it is in the hole. Stop, account for it, the engineer decides.",
          ["production engineer"],
        ),
        answer(
          "old-condition",
          "pulled-condition",
          ["port cut", "check open", "charge lost", "packing", "plugged"],
          "A fault was seen on the pulled valve",
          "The pulled valve looks good: the fault may be elsewhere. Ask the engineer before the next one goes in.",
          ["production engineer"],
        ),
        check("serial-ok", "serial matches", "Serial is the programme's", { serial: "new-serial" }),
        check(
          "set-ok",
          "set pressure",
          "Set pressure is what the mandrel needs",
          { card: "new-card" },
          ["production engineer"],
        ),
        answer(
          "latch-ok",
          "new-latch",
          ["yes"],
          "Latch fits the profile",
          "The latch is not made for this profile. It does not go in.",
        ),
        answer(
          "packing-ok",
          "new-packing",
          ["yes"],
          "Packing whole",
          "Packing is nicked or missing. Dress the valve again.",
        ),
        answer(
          "pins-brass",
          "pin-material",
          ["brass"],
          "Running-tool pins are brass",
          "The pins are not brass. Steel may not shear and leaves the string fast to the valve; aluminium may shear while seating. Change them, or have the exception named.",
          ["production engineer"],
        ),
        { kind: "reading", id: "pins-counted", text: "Pins counted", field: "pin-count" },
        { kind: "reading", id: "pins-batch", text: "Pin batch noted", field: "pin-batch" },
        { kind: "reading", id: "pins-witnessed", text: "Pins witnessed", field: "pin-witness" },
        signature(
          "production engineer",
          "Production engineer has heard the condition, by radio if not there",
        ),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "set-string-on",
    }),
  ],
};

const setRun: Phase = {
  id: "set",
  title: "Set run",
  items: [
    step({
      id: "set-string-on",
      title: "Set string on",
      instruction:
        "Running tool with the new valve on the kickover tool, arm locked for the way in as its maker says, knuckle free. Re-make the lubricator, test the broken union, equalise and open.",
      caution: "A union that was broken is tested again before it sees the well.",
      fields: [choice("set-union", "Broken union tested", yesNo)],
      string: "set",
      stringAt: "surface",
    }),
    step({
      id: "pocket-open",
      title: "Pressures with the pocket open",
      instruction:
        "Read both gauges. The pocket joins annulus and tubing: they should agree at the mandrel.",
      expect: "If they do not, something is in the pocket or the fluid level moved.",
      fields: [
        quantity("open-casing", "Casing pressure at surface", "pressure"),
        quantity("open-wellhead", "Wellhead pressure", "pressure"),
      ],
      string: "set",
      stringAt: "surface",
    }),
    step({
      id: "enter",
      title: "Enter the pocket",
      instruction:
        "Depth from the pull run, not from paper. Find the sleeve from below, kick over, slack down: the valve enters and its nose stands on the seat.",
      expect: "Weight falls over the valve's length, 1 to 2 ft, then stands.",
      fields: [quantity("set-depth", "Depth standing in the pocket, along hole", "length")],
      string: "set",
      stringAt: "mandrel",
    }),
    step({
      id: "drive",
      title: "Jar down to drive it home",
      instruction: "Jar down until each stroke stops at the same counter value.",
      expect: "First strokes travel; then they stop short and sharp.",
      fields: [
        count("drive-hits", "Jar hits down"),
        choice("drive-stops", "Last strokes stop at the same counter value", yesNo),
      ],
      string: "set",
      stringAt: "mandrel",
    }),
    step({
      id: "test-pull",
      title: "Test the latch with a light pull",
      instruction:
        "Pull lightly over pick-up, below the pins' shear. It must hold. Not before this: jarring up.",
      expect: "About 100 to 200 lbf over pick-up holds (common practice).",
      fields: [
        quantity("test-pull-force", "Line pull taken", "force", { most: "largest-pull" }),
        choice("test-pull-held", "The pull", [
          ["held", "Held"],
          ["moved", "Moved"],
        ]),
      ],
      string: "set",
      stringAt: "mandrel",
    }),
    step({
      id: "shear",
      title: "Jar up to shear off",
      instruction:
        "Several light, then harder hits until the pins shear. Do not pull static to shear unless it is programmed.",
      expect: "Over-pull falls to hanging, the string is free.",
      caution:
        "Work to the line's limit and no further. If they will not shear: stop, let it soak, call.",
      fields: [
        count("shear-hits", "Jar hits up"),
        quantity("shear-largest", "Largest line pull", "force", { most: "largest-pull" }),
        choice("shear-sign", "Shear sign", [
          ["clear", "Clear, string free"],
          ["unclear", "Not clear"],
        ]),
      ],
      string: "set",
      stringAt: "mandrel",
    }),
    step({
      id: "set-out",
      title: "Come out",
      instruction:
        "Slow where the arm has to fold, at safety valve and hanger and for the last 200 ft. Count every tool at surface before the crown valve closes.",
      fields: [choice("set-all-out", "All tools counted in the lubricator", yesNo)],
      string: "set",
      stringAt: "surface",
    }),
    ...barriers(
      "fourth",
      "the lubricator is opened to look at the running tool",
      "look-tool",
      true,
    ),
    step({
      id: "look-tool",
      title: "Look at the running tool",
      instruction:
        "Pins sheared, both halves or their marks seen; no valve and no latch ring on it; arm folds. Photograph the scars.",
      fields: [
        choice("tool-pins", "Pins", [
          ["sheared", "All sheared"],
          ["not sheared", "Not all sheared"],
        ]),
        choice("tool-valve", "Valve", [
          ["left in pocket", "Not on the tool"],
          ["came back", "Came back on the tool"],
        ]),
      ],
    }),
  ],
};

const prove: Phase = {
  id: "prove",
  title: "Prove",
  items: [
    step({
      id: "proof-start",
      title: "Make a difference across the valve",
      instruction:
        "Bleed the side that the programme names, slowly. A check holds one way only, a closed valve or dummy both ways as far as rated. Read both gauges at one moment.",
      expect: "The difference at the mandrel is worked out from what you read.",
      caution: "Bleed only where the permit allows. H2S, ignition, freezing at the choke.",
      fields: bothGauges("proof-start"),
    }),
    step({
      id: "proof-end",
      title: "Read again after the watch",
      instruction: "Watch both gauges, then read them at one moment.",
      expect: "No change. A fall means packing, latch or seat leaks.",
      fields: bothGauges("proof-end"),
    }),
    hold({
      id: "proof-hold",
      title: "Seated, sheared off, proved",
      purpose: "Before the stack comes off and the well goes back to injection.",
      conditions: [
        answer(
          "latched",
          "test-pull-held",
          ["held"],
          "Latch held the test pull",
          "The latch did not hold: the valve is not latched. Go back and look.",
        ),
        answer(
          "sheared",
          "tool-pins",
          ["sheared"],
          "Pins seen sheared at surface",
          "The pins were not all seen sheared. The next run is a tag and a light pull, nothing is assumed.",
        ),
        answer(
          "left",
          "tool-valve",
          ["left in pocket"],
          "Valve is not on the tool",
          "The valve came back on the tool. It is not set.",
        ),
        check(
          "holds",
          "proof of seat",
          "The valve holds a difference",
          {
            "start casing": "proof-start-casing",
            "start wellhead": "proof-start-wellhead",
            "end casing": "proof-end-casing",
            "end wellhead": "proof-end-wellhead",
          },
          ["production engineer"],
        ),
        signature("production engineer", "Production engineer accepts the proof"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "stack-off",
    }),
    ...barriers("fifth", "the stack comes off", "stack-off", false),
  ],
};

const handBack: Phase = {
  id: "hand-back",
  title: "Hand back",
  items: [
    step({
      id: "stack-off",
      title: "Rig down",
      instruction:
        "Drain, break and lay down the stack. Cap back and tested, tree valves as found or as told, safety valve back on its control line, trips back.",
      caution: "Lifting. Trapped pressure in every pocket of the stack.",
      fields: [choice("cap-tested", "Cap tested", yesNo)],
    }),
    step({
      id: "injection",
      title: "Return to injection, gently",
      instruction:
        "Whoever locked the gas takes the lock off. Flowline open, lowest back-pressure. Raise the casing slowly: 50 psi in 8 to 10 min up to 400 psi, then 100 psi in 8 to 10 min (API RP 11V5 as commonly quoted, from memory). Note casing every 10 min.",
      expect: "Casing settles on the operating valve.",
      caution:
        "Liquid driven through a valve too fast cuts its seat for good. Slugs of gas to the separator.",
      fields: [
        choice("lock-off", "Gas lock taken off by its owner", yesNo),
        quantity("final-casing", "Casing pressure when left", "pressure"),
        quantity("final-wellhead", "Wellhead pressure when left", "pressure"),
      ],
      optional: true,
    }),
    step({
      id: "line-left",
      title: "Line cut and left",
      instruction: "Note what was cut off the wire and what is left, and where it was jarred most.",
      fields: [
        quantity("line-cut", "Line cut off", "length"),
        words("line-remarks", "Remarks", true),
      ],
    }),
    step({
      id: "account",
      title: "Account for everything",
      instruction:
        "Every tool, pin, ring and packing that went in came out or is named here. Site clear.",
      fields: [
        choice("nothing-left", "Left in the hole", [
          ["nothing", "Nothing but the new valve"],
          ["something", "Something: see remarks"],
        ]),
        words("left-words", "Remarks", true),
      ],
    }),
    hold({
      id: "handover-hold",
      title: "Handover",
      purpose: "Before the crew leaves the well.",
      conditions: [
        answer(
          "cap-ok",
          "cap-tested",
          ["yes"],
          "Cap tested",
          "The cap was not tested. Test it before the well is left.",
        ),
        answer(
          "accounted",
          "nothing-left",
          ["nothing"],
          "Nothing left in the hole",
          "Something is left in the hole: the well is not handed over as normal. The engineer decides.",
          ["production engineer"],
        ),
        signature("field operator", "Field operator takes the well over"),
      ],
      releasedBy: ["wireline supervisor"],
      guards: "close",
    }),
    step({
      id: "close",
      title: "Close the run",
      instruction: "Read the record once more. Then close the run: it goes to the engineer.",
      fields: [words("closing-remark", "Remark for the engineer", true)],
    }),
  ],
};

export const changeOut: Sheet = {
  id: "change-out",
  version: 1,
  title: "Change out one gas-lift valve",
  phases: [ready, rigUp, gauge, pull, replace, setRun, prove, handBack],
};
