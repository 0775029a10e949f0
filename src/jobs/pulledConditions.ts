/** How a pulled valve is found, by generic failure modes. */
export const pulledConditions = [
  "port cut",
  "check open",
  "charge lost",
  "packing",
  "plugged",
  "good",
] as const;
export type PulledCondition = (typeof pulledConditions)[number];

export const conditionWords: Readonly<Record<PulledCondition, string>> = {
  "port cut": "Port or stem cut",
  "check open": "Check stuck or cut",
  "charge lost": "Bellows or charge lost",
  packing: "Packing damaged",
  plugged: "Plugged or scaled",
  good: "Looks good",
};

export const isPulledCondition = (word: string): word is PulledCondition =>
  (pulledConditions as readonly string[]).includes(word);
