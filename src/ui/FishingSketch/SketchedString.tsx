import { asEntered, type Writer } from "../../jobs/display.ts";
import { openFigures, pinsInWords } from "../../jobs/fishingSketch.ts";
import type { Photograph, ToolString } from "../../jobs/records/equipment.ts";
import type { Programme } from "../../jobs/records/programme.ts";
import { isLengthOpen, valveOn } from "../../jobs/results/stringInStack.ts";
import { figuresOf } from "../../jobs/toolString.ts";
import { PhotographPicture } from "../Evidence/PhotographPicture.tsx";
import { SketchPicture } from "./SketchPicture.tsx";

interface SketchedStringProps {
  readonly string: ToolString;
  readonly photographs: readonly Photograph[];
  /** The tools on the string's record are others by now. */
  readonly changed: boolean;
  readonly programme: Programme;
  readonly writer: Writer;
}

/** One string: the drawing, its tools with their figures, and room for what is measured and for names. */
export function SketchedString({
  string,
  photographs,
  changed,
  programme,
  writer,
}: SketchedStringProps) {
  const { closed, extended, lengthsOpen, weight, largest } = figuresOf(string);
  const { valve, needs } = valveOn(string, programme);
  const tools = string.tools.map((tool) => {
    const pins = pinsInWords(tool, programme.job, writer);
    return { tool, pins, open: openFigures(tool, pins) };
  });
  const strengths = new Set(tools.flatMap(({ pins }) => pins.strengthFrom ?? []));
  const length = (si: number) => writer.write("length", si);
  const longest = (si: number) => (lengthsOpen.length > 0 ? "not known" : length(si));
  const title = `sketch-${string.id}`;
  return (
    <section className="sketch-string" aria-labelledby={title}>
      <h2 id={title}>{string.name}</h2>
      {changed && (
        <p className="caution">
          <span aria-hidden="true">!</span>
          <span>
            The string's record has changed since issue. Drawn is the string as it was issued: look
            which of them is in the hole.
          </span>
        </p>
      )}
      <SketchPicture string={string} />
      <div className="sketch-tools">
        <table>
          <caption className="hidden-label">Tools of {string.name}, top down</caption>
          <thead>
            <tr>
              <th scope="col">Tool</th>
              <th scope="col">Closed</th>
              <th scope="col">Extended</th>
              <th scope="col">Diameter</th>
              <th scope="col">Neck</th>
              <th scope="col">Weight</th>
              <th scope="col" className="sketch-measured">
                Measured length
              </th>
              <th scope="col" className="sketch-measured">
                Diameter
              </th>
              <th scope="col" className="sketch-measured">
                Neck
              </th>
            </tr>
          </thead>
          <tbody>
            {tools.map(({ tool, pins, open }, index) => (
              <tr key={tool.id}>
                <th scope="row">
                  {index + 1} {tool.name}
                  {pins.says !== "none named" && (
                    <span className="sketch-pins">Pins: {pins.says}.</span>
                  )}
                  {open.length > 0 && <span className="sketch-open">Open: {open.join("; ")}.</span>}
                </th>
                <td data-label="Closed">{asEntered(tool.length)}</td>
                <td data-label="Extended">
                  {tool.lengthExtended
                    ? asEntered(tool.lengthExtended)
                    : isLengthOpen(tool)
                      ? "not known"
                      : "as closed"}
                </td>
                <td data-label="Diameter">{asEntered(tool.outsideDiameter)}</td>
                <td data-label="Neck">
                  {tool.fishingNeck ? asEntered(tool.fishingNeck) : "not known"}
                </td>
                <td data-label="Weight">{asEntered(tool.weight)}</td>
                <Measured />
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">Whole string</th>
              <td data-label="Closed">{length(closed)}</td>
              <td data-label="Extended">{longest(extended)}</td>
              <td data-label="Largest">{largest && writer.write("diameter", largest.diameter)}</td>
              <td />
              <td data-label="Weight">{writer.write("weight", weight)}</td>
              <Measured />
            </tr>
            {valve > 0 && (
              <tr>
                <th scope="row">With the valve on it, {length(valve)}</th>
                <td data-label="Closed">{length(closed + valve)}</td>
                <td data-label="Extended">{longest(extended + valve)}</td>
                <td />
                <td />
                <td />
                <Measured />
              </tr>
            )}
            {needs.length > 0 && (
              <tr>
                <th scope="row">With the valve on it</th>
                <td data-label="Closed" colSpan={5}>
                  not known: needs {needs.join("; ")}
                </td>
                <Measured />
              </tr>
            )}
          </tfoot>
        </table>
        {[...strengths].map((strength) => (
          <p key={strength} className="small">
            Pull on the pins worked out with {strength}. A blow of the jars shears pins that no
            steady pull would; real pins spread by 10 to 15 percent (common practice).
          </p>
        ))}
        {photographs.length > 0 && (
          <ul className="sketch-photographs">
            {photographs.map(({ day, jpeg }, index) => (
              <li key={jpeg}>
                <figure>
                  <PhotographPicture jpeg={jpeg} alt={`${string.name}, photograph ${index + 1}`} />
                  <figcaption className="small">
                    {index + 1}, added {day}
                  </figcaption>
                </figure>
              </li>
            ))}
          </ul>
        )}
      </div>
      <div className="sketch-sign">
        <p>Measured by</p>
        <p>Checked by</p>
        <p>Date and time</p>
      </div>
    </section>
  );
}

/** Room on paper for what is measured on location. */
function Measured() {
  return (
    <>
      <td className="sketch-measured" />
      <td className="sketch-measured" />
      <td className="sketch-measured" />
    </>
  );
}
