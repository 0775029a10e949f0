import type { Block, Cell, Part, ReportDocument, Words } from "../../jobs/report/document.ts";
import { DrawnSignature } from "../Evidence/DrawnSignature.tsx";
import { ChartPicture } from "./ChartPicture.tsx";
import { ReportPhotograph } from "./ReportPhotograph.tsx";

/** A report set as a page: the same words in the same order as on paper. */
export function ReportPage({ of }: { readonly of: ReportDocument }) {
  return (
    <article className="report" aria-labelledby="report-title">
      <header className="report-head">
        <h2 id="report-title">{of.title}</h2>
        <p>{of.subtitle}</p>
      </header>
      <nav className="report-contents" aria-label="Parts of the report">
        {of.parts.map(({ id, title }) => (
          <a key={id} className="button quiet" href={`#${id}`}>
            {title}
          </a>
        ))}
      </nav>
      {of.parts.map((part) => (
        <ReportPart key={part.id} part={part} />
      ))}
      <footer className="report-foot small soft">{of.foot}</footer>
    </article>
  );
}

function ReportPart({ part }: { readonly part: Part }) {
  return (
    <section
      id={part.id}
      className={`report-part${part.newPage ? " new-page" : ""}${part.dense ? " dense" : ""}`}
      aria-labelledby={`${part.id}-title`}
    >
      <h3 id={`${part.id}-title`}>{part.title}</h3>
      {part.blocks.map((block, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a document is set whole and never reordered
        <ReportBlock key={index} block={block} />
      ))}
    </section>
  );
}

function ReportBlock({ block }: { readonly block: Block }) {
  switch (block.kind) {
    case "heading":
      return <h4>{block.text}</h4>;
    case "words":
      return <p className={block.tone === "problem" ? "problem" : toneOf(block)}>{block.text}</p>;
    case "facts":
      return (
        <dl className="report-facts">
          {block.rows.map(([name, value]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>
                <Said of={value} />
              </dd>
            </div>
          ))}
        </dl>
      );
    case "table":
      return <ReportTable block={block} />;
    case "list":
      return (
        <ul className="report-list">
          {block.items.map((item, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a document is set whole, and two items may be alike
            <li key={index}>
              <Said of={item} />
            </li>
          ))}
        </ul>
      );
    case "chart":
      return <ChartPicture of={block.chart} />;
    case "photograph":
      return <ReportPhotograph of={block} />;
    case "signature":
      return (
        <figure className="report-signature">
          {block.strokes && <DrawnSignature strokes={block.strokes} name={block.name} />}
          <figcaption>
            <strong>{block.name}</strong>, {block.role}, {block.at}. {block.of}
          </figcaption>
        </figure>
      );
  }
}

type Table = Extract<Block, { kind: "table" }>;

function ReportTable({ block }: { readonly block: Table }) {
  const { caption, columns, rows, titles } = block;
  const all = columns.reduce((sum, { share = 1 }) => sum + share, 0);
  return (
    <table className="report-table">
      {caption && <caption>{caption}</caption>}
      <colgroup>
        {columns.map(({ title, share = 1 }) => (
          <col key={title} width={`${((100 * share) / all).toFixed(1)}%`} />
        ))}
      </colgroup>
      <thead>
        <tr>
          {columns.map(({ title, align }) => (
            <th key={title} scope="col" className={align === "right" ? "right" : undefined}>
              {title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a document is set whole and never reordered
          <tr key={index} className={titles?.includes(index) ? "report-row-title" : undefined}>
            {row.map((cell, place) => (
              <td
                key={columns[place]?.title}
                className={columns[place]?.align === "right" ? rightOf(cell) : undefined}
                data-name={columns[place]?.title}
              >
                <Said of={cell} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A figure stays with its unit; a column of them may hold whole sentences, too. */
function rightOf(cell: Cell): string {
  const text = typeof cell === "string" ? cell : cell.text;
  return /^(± )?[−\d.,\u2009]+ \S+$/.test(text) ? "right report-figure" : "right";
}

function Said({ of }: { readonly of: Cell }) {
  if (typeof of === "string") return of;
  return of.tone === undefined ? of.text : <span className={toneOf(of)}>{of.text}</span>;
}

function toneOf({ tone }: Words): string | undefined {
  return tone === "soft" ? "soft" : tone && `report-${tone}`;
}
