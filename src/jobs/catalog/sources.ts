/** Where the figures of the catalog come from, in the words that stand beside them on the screen. */

export const NOMINAL = "nominal size of the trade, common practice";

export const FROM_MEMORY = "from memory, unverified";

/** A figure that differs by maker: one to plan with until the part is measured. */
export const TO_MEASURE = `${FROM_MEMORY}: differs by maker, measure the part`;

/** The catalog does not know it, and says so. */
export const NOT_STATED = "not known from a catalog: take it from the batch's certificate";
