import type { Dimension, Quantity } from "../quantity.ts";
import { type Context, recorded } from "./context.ts";
import { type Definitions, type Given, type ResultId, type Traced, trace } from "./traced.ts";

/** Figures that stand in a record or a policy and that a crew works to as they are. */

function asRecorded(id: ResultId, label: string, dimension: Dimension, given: Given): Traced {
  return trace({
    id,
    label,
    dimension,
    method: {
      name: "As recorded",
      formula: given.symbol,
      source: "the record named",
      validity: [],
    },
    givens: { given },
    work: (v) => ({ si: v.given }),
  });
}

/** A mandrel's depth along hole, counted from the target: -1 the one above, 1 the one below. */
function mandrelDepth(context: Context, id: ResultId, label: string, away: number): Traced {
  const { well } = context.programme;
  const inOrder = [...(well?.mandrels ?? [])].sort((a, b) => a.number - b.number);
  const own = inOrder.findIndex((mandrel) => mandrel.id === context.mandrel?.id);
  const mandrel = own === -1 ? undefined : inOrder[own + away];
  return asRecorded(
    id,
    label,
    "length",
    recorded(
      context,
      "L",
      label,
      "length",
      mandrel?.depthAlongHole,
      `${well?.name ?? "well"}, ${mandrel ? `mandrel ${mandrel.number}` : "no such mandrel"}`,
    ),
  );
}

function policyFigure<D extends Dimension>(
  context: Context,
  id: ResultId,
  label: string,
  dimension: D,
  limit: { readonly value: Quantity<D>; readonly basis: string } | undefined,
): Traced {
  const given = recorded(context, "policy", label, dimension, limit?.value, "policy");
  return asRecorded(id, label, dimension, {
    ...given,
    ...(limit && { origin: { kind: "policy", basis: limit.basis } }),
  });
}

export const recordResults = {
  "target-depth": (context) =>
    mandrelDepth(context, "target-depth", "Target mandrel, along hole", 0),
  "mandrel-above": (context) => mandrelDepth(context, "mandrel-above", "Mandrel above it", -1),
  "mandrel-below": (context) => mandrelDepth(context, "mandrel-below", "Mandrel below it", 1),
  "depth-reference": (context) => {
    const reference = context.programme.well?.depthReference;
    const name = reference
      ? `Depth reference above the wellhead zero (${reference.name})`
      : "Depth reference";
    return asRecorded(
      "depth-reference",
      name,
      "length",
      recorded(context, "z", name, "length", reference?.aboveWellheadZero, "well"),
    );
  },
  "low-test": (context) =>
    policyFigure(
      context,
      "low-test",
      "Low test, at least",
      "pressure",
      context.programme.policy?.lowTest,
    ),
  "low-test-hold": (context) =>
    policyFigure(
      context,
      "low-test-hold",
      "Hold for",
      "duration",
      context.programme.policy?.lowTestHold,
    ),
  "high-test-hold": (context) =>
    policyFigure(
      context,
      "high-test-hold",
      "Hold for",
      "duration",
      context.programme.policy?.highTestHold,
    ),
  watch: (context) =>
    policyFigure(context, "watch", "Watch for", "duration", context.programme.policy?.watch),
  "proof-difference": (context) =>
    policyFigure(
      context,
      "proof-difference",
      "Difference across the valve, at least",
      "pressure difference",
      context.programme.policy?.proofDifference,
    ),
} satisfies Definitions;
