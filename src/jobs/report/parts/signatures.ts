import { holdPointsOf } from "../../sheet/walk.ts";
import type { Block, Part } from "../document.ts";
import type { Reported } from "../reported.ts";
import { when } from "../when.ts";

/** Everybody who signed, for what, and what they drew. */
export function signaturesPart({ state, programme }: Reported): Part | undefined {
  const { signatures, crewChanges, decidedBy, stage } = state;
  const holds = new Map(holdPointsOf(programme.sheet).map(({ id, title }) => [id, title]));
  const blocks: Block[] = [
    ...signatures.map(({ by, event, drawn, hold, setAside }): Block => {
      const title = holds.get(hold) ?? hold;
      const of = setAside ? `${title}, for an attempt before` : title;
      return signatureBlock(by, event.at, of, drawn);
    }),
    ...crewChanges.flatMap(({ by, to, drawn, event }): Block[] => [
      signatureBlock(by, event.at, "Crew change, gave the run over", drawn.by),
      signatureBlock(to, event.at, "Crew change, took the run over", drawn.to),
    ]),
    // An approval that was taken back is no signature; where it stands it signs the whole log.
    ...(stage === "approved" && decidedBy
      ? [
          signatureBlock(
            decidedBy.event.actor,
            decidedBy.event.at,
            `The record, ${decidedBy.decision}`,
            undefined,
          ),
        ]
      : []),
  ];
  if (blocks.length === 0) return undefined;
  return { id: "signatures", title: "Signatures", blocks };
}

type SignatureBlock = Extract<Block, { kind: "signature" }>;

const signatureBlock = (
  { name, role }: Pick<SignatureBlock, "name" | "role">,
  at: string,
  of: string,
  strokes: SignatureBlock["strokes"],
): SignatureBlock => ({
  kind: "signature",
  name,
  role,
  at: when(at),
  of,
  strokes,
});
