import type { Writer } from "../../jobs/display.ts";
import type { Dimension } from "../../jobs/quantity.ts";
import { Figure } from "../Working/Figure.tsx";
import { LineSample, letterOf, MarkSample } from "./Marks.tsx";
import type { PlotLine } from "./plot.ts";
import { type Stop, valueAt } from "./reading.ts";
import { type PlotWords, stopName } from "./words.ts";

interface ReadoutProps {
  readonly depth: number;
  readonly lines: readonly PlotLine[];
  readonly near: Stop | undefined;
  readonly dimension: Dimension;
  readonly writer: Writer;
  readonly words: PlotWords;
}

/** What the reading line reads, and with it what each line is called. */
export function Readout({ depth, lines, near, dimension, writer, words }: ReadoutProps) {
  return (
    <div className="depth-readout">
      <div>
        <p className="depth-readout-depth">
          At <Figure dimension="length" si={depth} writer={writer} />
        </p>
        <dl>
          {lines.map((line, index) => {
            const si = valueAt(line.points, depth);
            return (
              <div key={line.name} className="depth-row">
                <dt>
                  <LineSample line={line} />
                  <span>
                    {lines.length > 1 && <b className={line.ink}>{letterOf(index)} </b>}
                    {line.name}
                  </span>
                </dt>
                <dd>
                  {si === undefined ? (
                    "no value here"
                  ) : (
                    <Figure
                      dimension={dimension}
                      si={si}
                      writer={writer}
                      calculated={line.ink === "calculated"}
                    />
                  )}
                </dd>
              </div>
            );
          })}
        </dl>
      </div>
      {near && (
        <div>
          <p className="depth-readout-near">
            <span className="small">Nearest</span> {stopName(near, words)}
          </p>
          <dl>
            {near.marks.map((mark) => (
              <div key={`${mark.name} ${mark.shape} ${mark.si}`} className="depth-row">
                <dt>
                  <MarkSample shape={mark.shape} emphasis={mark.emphasis} />
                  <span>{mark.name}</span>
                </dt>
                <dd>
                  <Figure
                    dimension={dimension}
                    si={mark.si}
                    writer={writer}
                    calculated={mark.shape !== "dot"}
                  />
                  {mark.band && <span className="depth-band">{words.band(mark.band)}</span>}
                </dd>
              </div>
            ))}
          </dl>
        </div>
      )}
      <p className="depth-readout-hint">Touch or drag to read another depth.</p>
    </div>
  );
}
