/** What hits the buttons of a part: a glove on the run sheet, a bare finger or a mouse in the office. */
export type Reach = "glove" | "office";
