/** How long something took, of many times: the middle one, and the one that a twentieth were slower than. */
export interface Quantiles {
  readonly what: string;
  readonly "p50, ms": number;
  readonly "p95, ms": number;
  readonly times: number;
}

export function quantilesOf(what: string, took: readonly number[]): Quantiles {
  const sorted = [...took].sort((a, b) => a - b);
  const at = (share: number) =>
    Number((sorted[Math.ceil(share * sorted.length) - 1] ?? Number.NaN).toFixed(1));
  return { what, "p50, ms": at(0.5), "p95, ms": at(0.95), times: took.length };
}
