import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { library } from "../../demo-data/emberMesa.ts";
import { pathOf, readWitsml, type Trajectory } from "../../src/jobs/files/witsml.ts";
import { well } from "../../src/jobs/records/well.ts";

// Names of elements, kinds of station, their states and the units were held against the schema fragments and examples
// in the public repository hashmapinc/WitsmlObjectsLibrary, whose classes were generated from the standard's schemas:
// v1411/MeasuredDepthUom.java (m, ft, ftUS), v20/Trajectory.java, v20/TrajectoryStation.java, v20/TrajStationType.java,
// v20/TrajStationStatus.java, test resources trajectory_converter/trajectory20.xml; and against the standard's own
// example trajectory_no_xsl.xml of 1.4.1. Units of angle (dega, rad, gon, mrad) after PlaneAngleUom of commonv2.

const file = (name: string) => readFileSync(new URL(`../files/${name}`, import.meta.url));
const bytes = (text: string) => new TextEncoder().encode(text);

function read(given: Uint8Array) {
  const found = readWitsml(given);
  if (found.state === "refused") throw new Error(found.why);
  return found;
}

function first(given: Uint8Array): Trajectory {
  const [trajectory] = read(given).trajectories;
  if (!trajectory) throw new Error("no trajectory");
  return trajectory;
}

/** A survey of 1.4.1.1 with the stations given. */
const survey = (stations: string, head = "") =>
  bytes(
    `<trajectorys xmlns="http://www.witsml.org/schemas/1series" version="1.4.1.1"><trajectory>${head}${stations}</trajectory></trajectorys>`,
  );
const station = (md: string, incl: string, azi: string, more = "") =>
  `<trajectoryStation>${more}<md uom="m">${md}</md><incl uom="dega">${incl}</incl><azi uom="dega">${azi}</azi></trajectoryStation>`;

describe("a survey in WITSML 1.4.1.1", () => {
  const trajectory = first(file("em-21-survey-1411.xml"));

  it("names the well, the wellbore and itself", () => {
    expect(trajectory).toMatchObject({
      well: "EM-21",
      wellbore: "EM-21 main hole",
      name: "Gyro in tubing & below",
      is: "survey",
      azimuthFrom: "grid north",
    });
  });

  it("gives the measured stations by depth, in the units of the file", () => {
    expect(trajectory.stations).toEqual([
      at(0, "ft", 0, 0),
      at(2100, "ft", 3.5, 138),
      at(4200.5, "ft", 12.25, 141.5),
      at(6380, "ft", 17.75, 143.25),
    ]);
    expect(trajectory.notes).toContain("The stations were not in order of depth; they are now.");
  });

  it("says of every other station why it is not there", () => {
    expect(trajectory.problems).toEqual([]);
    expect(trajectory.skipped.map(({ station: name, why }) => `${name}: ${why}`)).toEqual([
      'Station 4 ("s4"): Inclination only: without an azimuth it does not say where the hole goes.',
      'Station 5 ("s5"): A mark on the path, no survey station: its kind is "casing MD".',
      'Station 6 ("s6"): Planned, not measured: its kind is "DLS to INCL and AZI".',
      'Station 7 ("s7"): Rejected by whoever surveyed it.',
      'Station 9 ("s9"): No inclination.',
    ]);
  });

  it("becomes the path of a well's record", () => {
    const found = pathOf(trajectory);
    if (found.state === "refused") throw new Error(found.why);
    const [before] = library.wells;
    expect(well.parse({ ...before, path: found.path })).toMatchObject({ path: found.path });
  });

  it("does not take a plan for a survey", () => {
    const plan = read(file("em-21-survey-1411.xml")).trajectories[1] as Trajectory;
    expect(plan).toMatchObject({ name: "Plan 3", is: "plan" });
    expect(pathOf(plan)).toMatchObject({
      state: "refused",
      why: expect.stringContaining("calls this a plan"),
    });
  });
});

describe("a survey in WITSML 2.0", () => {
  const trajectory = first(file("em-22-survey-20.xml"));

  it("names the wellbore; the well is in another file there", () => {
    expect(trajectory).toMatchObject({
      wellbore: "EM-22 main hole",
      name: "Final survey EM-22",
      is: "not said",
      azimuthFrom: "true north",
    });
    expect(trajectory.well).toBeUndefined();
  });

  it("takes each value in its own unit, and says what was converted", () => {
    // 3,937 US survey feet are 1,200 m by definition; 10 gon are 9 degrees; 0.05 rad are 2.864 788 975 65 degrees.
    expect(trajectory.stations).toEqual([
      at(300, "m", 2.86478897565, 90),
      at(600, "m", 9, 90),
      at(3937.00787402, "ft", 12, 91),
    ]);
    expect(trajectory.notes).toEqual(
      expect.arrayContaining([
        "Angles in radians (rad) are kept in deg.",
        "Angles in gons (gon) are kept in deg.",
        "Depths in US survey feet (ft[US]) are kept in ft.",
        "Interpolated between others, not measured: 1 of the stations.",
        "The first station is at 300 m: the hole above it is taken as vertical.",
      ]),
    );
  });

  it("names a unit that it does not know, by station", () => {
    expect(trajectory.problems).toEqual([
      {
        station: 'Station 4 ("d")',
        why: 'Depth along hole: the unit "chain" is not known. Known are m, ft, ftUS, ft[US].',
      },
    ]);
    expect(trajectory.skipped).toEqual([
      { station: 'Station 5 ("e")', why: "Open: it has not been validated." },
    ]);
  });
});

describe("stations that cannot be read", () => {
  it.each([
    [station("one", "0", "0"), 'Depth along hole: "one" is not a number, written as 1234.5.'],
    [station("1,200", "0", "0"), 'Depth along hole: "1,200" is not a number, written as 1234.5.'],
    [station("NaN", "0", "0"), 'Depth along hole: "NaN" is not a number, written as 1234.5.'],
    [station("1e999", "0", "0"), 'Depth along hole: "1e999" is not a number, written as 1234.5.'],
    [station("-5", "0", "0"), "Depth along hole -5 m: it is 0 or more."],
    [
      station("90000", "0", "0"),
      "Depth along hole 90000 m: a length lies between -15,000 and 15,000 m.",
    ],
    [station("10", "187", "0"), "Inclination 187 deg: it lies between 0 and 180."],
    [station("10", "1", "420"), "Azimuth 420 deg: it lies between 0 and 360."],
    [
      "<trajectoryStation><md>10</md><incl>x</incl><azi uom='deg'>1</azi></trajectoryStation>",
      'Depth along hole: no unit (uom). Known are m, ft, ftUS, ft[US]. Inclination: no unit (uom). Known are dega, rad, mrad, gon. Azimuth: the unit "deg" is not known. Known are dega, rad, mrad, gon.',
    ],
  ])("%s", (given, why) => {
    const trajectory = first(survey(station("1", "0", "0") + given));
    expect(trajectory.stations).toHaveLength(1);
    expect(trajectory.problems).toEqual([{ station: "Station 2", why }]);
  });

  it("a kind that the standard does not have", () => {
    const kind = "<typeTrajStation>guess</typeTrajStation>";
    expect(first(survey(station("1", "0", "0", kind))).skipped).toEqual([
      { station: "Station 1", why: 'Its kind, "guess", is none of the standard\'s.' },
    ]);
  });

  it("a station planned in a survey that was measured", () => {
    const planned = "<commonData><itemState>plan</itemState></commonData>";
    expect(first(survey(station("1", "0", "0", planned))).skipped[0]?.why).toBe(
      "Planned, not measured.",
    );
  });
});

describe("two stations at one depth", () => {
  it("are one when they say the same, in another unit too", () => {
    const inFeet = station("1000", "5", "40")
      .replace('uom="m"', 'uom="ft"')
      .replace("1000", "3280.8399");
    const trajectory = first(survey(station("1000", "5", "40") + inFeet));
    expect(trajectory.stations).toHaveLength(1);
    expect(trajectory.skipped).toEqual([
      { station: "Station 2", why: "The same as Station 1 at 3280.8399 ft." },
    ]);
  });

  it("are named when they do not", () => {
    const trajectory = first(
      survey(station("0", "0", "0") + station("500", "5", "40") + station("500", "50", "40")),
    );
    expect(trajectory.stations).toEqual([at(0, "m", 0, 0), at(500, "m", 5, 40)]);
    expect(trajectory.problems).toEqual([
      {
        station: "Station 3",
        why: "Station 2 stands at 500 m already, with 5 deg from 40 deg; this one has 50 deg from 40 deg. Take the wrong one out of the file.",
      },
    ]);
  });
});

describe("paths", () => {
  it("are not made of nothing", () => {
    expect(pathOf(first(survey("")))).toEqual({
      state: "refused",
      why: "No station of the survey could be read.",
    });
  });

  it("are not made of stations that point straight back", () => {
    const back = first(survey(station("0", "0", "0") + station("100", "180", "0")));
    expect(pathOf(back)).toMatchObject({
      state: "refused",
      why: expect.stringContaining("No path goes through the stations"),
    });
  });
});

describe("files that are refused", () => {
  const laughs = `<?xml version="1.0"?><!DOCTYPE lolz [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><trajectorys version="1.4.1.1"><trajectory><name>&b;</name></trajectory></trajectorys>`;
  const outside = `<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/hostname">]><trajectorys version="1.4.1.1"><trajectory><name>&f;</name></trajectory></trajectorys>`;
  it.each([
    ["entities that multiply", bytes(laughs), /defines a document type or entities/],
    ["an entity from elsewhere", bytes(outside), /defines a document type or entities/],
    ["nothing", bytes(""), /not whole XML/],
    ["a table", bytes("md,incl,azi\n0,0,0\n"), /not whole XML/],
    ["half a file", bytes("<trajectorys version='1.4.1.1'>\n<trajectory>"), /not whole XML/],
    ["a zip", Uint8Array.from([0x50, 0x4b, 3, 4, 0xff, 0xfe, 0]), /letters cannot be read/],
    ["too deep", bytes("<a>".repeat(60) + "</a>".repeat(60)), /more than 40 deep/],
    ["a name of the language's own", survey("<__proto__>1</__proto__>"), /name that is not taken/],
    ["other data", bytes("<wells version='1.4.1.1'/>"), /holds "wells", no survey/],
    ["an older version", bytes("<trajectorys version='1.3.1.1'/>"), /WITSML version 1\.3\.1\.1;/],
    ["no version", bytes("<trajectorys/>"), /of a version it does not say/],
    ["a newer version", bytes("<Trajectory schemaVersion='2.1'/>"), /WITSML version 2\.1;/],
    ["no survey in it", bytes("<trajectorys version='1.4.1.1'/>"), /no trajectory is in it/],
    ["far too long", new Uint8Array(21 * 2 ** 20), /more than 20 MB/],
    [
      "far too many stations",
      survey(station("1", "0", "0").repeat(20_001)),
      /20,001 stations; 200 and 20,000 are the most/,
    ],
  ])("%s", (_, given, why) => {
    expect(readWitsml(given)).toEqual({ state: "refused", why: expect.stringMatching(why) });
  });

  it("an attribute of the language's own changes nothing", () => {
    readWitsml(survey('<a __proto__="1" constructor="2"/>'));
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect(Object.getPrototypeOf({})).toBe(Object.prototype);
  });
});

describe("how the letters are written", () => {
  const named = (name: string) => `<nameWell>${name}</nameWell>`;

  it("XML's own entities, and numbers for letters", () => {
    const trajectory = first(survey("", named("EM&#45;21 &lt;&#x41;&gt; &unknown;")));
    expect(trajectory.well).toBe("EM-21 <A> &unknown;");
  });

  it("UTF-16 with a byte order mark", () => {
    const text = new TextDecoder().decode(survey("", named("EM-21")));
    const utf16 = Uint8Array.from([
      0xff,
      0xfe,
      ...new Uint8Array(Uint16Array.from([...text].map((letter) => letter.charCodeAt(0))).buffer),
    ]);
    expect(first(utf16).well).toBe("EM-21");
  });

  it("an encoding that the file names", () => {
    const text = `<?xml version="1.0" encoding="ISO-8859-1"?>${new TextDecoder().decode(survey("", named("Brønn")))}`;
    const latin = Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)));
    expect(first(latin).well).toBe("Brønn");
  });
});

it("answers in words to whatever a file was turned into; what it reads makes a path or says why not", () => {
  const whole = file("em-22-survey-20.xml");
  const change = fc.record({
    at: fc.integer({ min: 0, max: whole.length - 1 }),
    to: fc.integer({ min: 9, max: 126 }),
  });
  fc.assert(
    fc.property(fc.array(change, { maxLength: 6 }), (changes) => {
      const given = Uint8Array.from(whole);
      for (const { at: place, to } of changes) given[place] = to;
      const found = readWitsml(given);
      if (found.state === "refused") {
        expect(found.why).toMatch(/\.$/);
        return;
      }
      for (const trajectory of found.trajectories) {
        const path = pathOf(trajectory);
        expect(path.state === "path" ? path.path : path.why).toBeTruthy();
      }
    }),
    { numRuns: 500 },
  );
});

function at(depth: number, unit: "ft" | "m", inclination: number, azimuth: number) {
  return {
    depthAlongHole: { value: depth, unit },
    inclination: { value: inclination, unit: "deg" },
    azimuth: { value: azimuth, unit: "deg" },
  };
}
