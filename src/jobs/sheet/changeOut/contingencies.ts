import type { Contingency } from "../sheet.ts";
import { atPocket } from "./contingenciesAtPocket.ts";
import { withLineAndStack } from "./contingenciesOfLine.ts";
import { onSite } from "./contingenciesOfSite.ts";

/**
 * What may go otherwise than planned, and the usual ways out. How crews do it is common practice; programme,
 * permit, makers' limits and whoever has the say on location come first.
 */
export const contingencies: readonly Contingency[] = [...atPocket, ...withLineAndStack, ...onSite];
