import { createContext } from "react";
import type { HalfTypedFields } from "../RunSheet/useHalfTyped.ts";

/** Names in the store which questions of a record were begun; a new name would lose what is kept under the old one. */
export const BEGUN = "questions begun";

/** Which questions are half written, by what they are about: one list for all the forms of a record. */
export const BegunQuestions = createContext<HalfTypedFields | undefined>(undefined);
