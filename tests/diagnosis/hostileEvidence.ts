import fc from "fast-check";
import {
  type Dimension,
  dimensions,
  fromSI,
  type Quantity,
  unitsOf,
} from "../../src/jobs/quantity.ts";
import type { Evidence } from "../../src/jobs/records/investigation.ts";

/**
 * Evidence that the schema lets through and no well ever gave: the least and the largest that a unit can say, times out of
 * order and from the future, pieces twice, and readings that cannot be of one well.
 */
function anything<D extends Dimension>(dimension: D): fc.Arbitrary<Quantity<D>> {
  const [least, most] = dimensions[dimension].possible;
  return fc
    .record({
      unit: fc.constantFrom(...unitsOf(dimension)),
      si: fc.oneof(
        { weight: 1, arbitrary: fc.constantFrom(least, most) },
        { weight: 2, arbitrary: fc.double({ min: least, max: most, noNaN: true }) },
        // Most of what is possible is far from any well: the same again in the lowest thousandth, and near it.
        {
          weight: 3,
          arbitrary: fc.double({ min: 0, max: Math.max(most / 1000, 1e-12), noNaN: true }),
        },
        {
          weight: 4,
          arbitrary: fc.double({ min: 0, max: Math.max(most / 30, 1e-12), noNaN: true }),
        },
      ),
    })
    .map(({ unit, si }) => {
      const value = fromSI(dimension, Math.max(least, Math.min(most, si)), unit);
      // Rounding on the way to the unit may leave what is possible by its last digit.
      const [low, high] = [fromSI(dimension, least, unit), fromSI(dimension, most, unit)];
      const inward = (high - low) * 1e-9;
      return {
        value: Math.max(low + inward, Math.min(high - inward, value)),
        unit,
      } as Quantity<D>;
    });
}

const time = fc
  .integer({ min: Date.parse("1990-01-01"), max: Date.parse("2090-01-01") })
  .map((ms) => new Date(ms).toISOString());
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });

/** Leaves out what is undefined, as a record from a form does. */
const without = <T extends object>(record: T): T =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T;

const base = {
  id: fc.constantFrom("a", "b", "c", "d", "e"),
  at: time,
  source: fc.constantFrom("gauge 1", "recorder", "x".repeat(400)),
  confidence: fc.constantFrom("good", "fair", "doubtful"),
  setAside: maybe(fc.boolean()),
};

const piece: fc.Arbitrary<Evidence> = fc
  .oneof(
    fc.record({
      ...base,
      kind: fc.constant("pressures"),
      injectionAtSurface: anything("pressure"),
      wellhead: anything("pressure"),
    }),
    fc.record({
      ...base,
      kind: fc.constant("supply"),
      injectionRate: maybe(anything("gas rate")),
      supplyPressure: maybe(anything("pressure")),
      supplyTemperature: maybe(anything("temperature")),
      choke: maybe(anything("diameter")),
      found: maybe(
        fc.constantFrom("in order", "choke changed", "frozen", "supply fell", "not looked at"),
      ),
    }),
    fc.record({
      ...base,
      kind: fc.constant("separator test"),
      liquidRate: anything("liquid rate"),
      waterCut: maybe(anything("fraction")),
      gasRate: maybe(anything("gas rate")),
      separatorPressure: maybe(anything("pressure")),
    }),
    fc.record({
      ...base,
      kind: fc.constant("trend"),
      points: fc.array(
        fc
          .record({
            at: time,
            casing: maybe(anything("pressure")),
            tubing: maybe(anything("pressure")),
            injectionRate: maybe(anything("gas rate")),
          })
          .map(without),
        { minLength: 2, maxLength: 12 },
      ),
    }),
    fc.record({
      ...base,
      kind: fc.constant("casing bleed"),
      from: anything("pressure"),
      to: anything("pressure"),
      took: anything("duration"),
      end: fc.constantFrom("at rest", "still falling"),
      wellhead: maybe(anything("pressure")),
    }),
    fc.record({
      ...base,
      kind: fc.constant("fluid level"),
      space: fc.constantFrom("annulus", "tubing"),
      well: fc.constantFrom("on lift", "shut in"),
      depthAlongHole: anything("length"),
    }),
    fc.record({
      ...base,
      kind: fc.constant("survey"),
      stops: fc.array(
        fc
          .record({
            depthAlongHole: anything("length"),
            pressure: anything("pressure"),
            temperature: maybe(anything("temperature")),
          })
          .map(without),
        { minLength: 2, maxLength: 10 },
      ),
    }),
    fc.record({
      ...base,
      kind: fc.constant("tracer"),
      injectionAtSurface: maybe(anything("pressure")),
      wellhead: maybe(anything("pressure")),
      injectionRate: maybe(anything("gas rate")),
      returns: fc.array(
        fc.record({ after: anything("duration"), share: maybe(anything("fraction")) }).map(without),
        { minLength: 1, maxLength: 5 },
      ),
    }),
  )
  .map((one) => without(one) as Evidence);

/** Pieces in any order, some of them twice. */
export const hostileEvidence: fc.Arbitrary<Evidence[]> = fc
  .array(piece, { minLength: 0, maxLength: 7 })
  .chain((pieces) =>
    fc.record({
      again: fc.subarray(pieces),
      order: fc.shuffledSubarray(pieces, { minLength: pieces.length }),
    }),
  )
  .map(({ again, order }) => [...order, ...again]);
