import type { Method } from "../../../calc/method.ts";
import type { Writer } from "../../display.ts";
import type { Block } from "../document.ts";

/** The methods of a report, each numbered where it is met first and told once, with its source and its range. */
export class Methods {
  private readonly told = new Map<string, { readonly number: number; readonly method: Method }>();
  private readonly writer: Writer;

  constructor(writer: Writer) {
    this.writer = writer;
  }

  /** Its name, and where it is told. */
  nameOf(method: Method): string {
    // Formulas stand with what is worked out by them.
    const key = JSON.stringify([method.name, method.source, method.validity]);
    const { number } = this.told.get(key) ?? { number: this.told.size + 1 };
    this.told.set(key, { number, method });
    return `${method.name} (M${number})`;
  }

  /** All that were named so far. */
  blocks(): Block[] {
    if (this.told.size === 0) return [];
    return [
      { kind: "heading", text: "Methods and their sources" },
      {
        kind: "table",
        columns: [
          { title: "No.", share: 0.6 },
          { title: "Method", share: 2.4 },
          { title: "Source and range", share: 7 },
        ],
        rows: [...this.told.values()].map(({ number, method }) => [
          `M${number}`,
          method.name,
          [endedOnce(method.source), ...this.rangesOf(method)].join(" "),
        ]),
      },
    ];
  }

  private rangesOf({ validity }: Method): string[] {
    return validity.map(({ quantity, measure, from, to, basis }) =>
      endedOnce(
        `Range, ${quantity}: ${this.writer.measure(measure, from)} to ${this.writer.measure(measure, to)} (${basis})`,
      ),
    );
  }
}

const endedOnce = (words: string) => `${words.replace(/\.$/, "")}.`;
