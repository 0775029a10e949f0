import { rankFaults } from "../../jobs/diagnosis/rank.ts";
import { writer } from "../../jobs/display.ts";
import { answering } from "../workerClient.ts";
import type { RankRequest } from "./useRanking.ts";

/** Works the ranking out beside the screen. */
answering<RankRequest>(({ given, investigation, units, atmosphere }, onProgress) =>
  rankFaults(given, investigation, writer(units, atmosphere), {
    onProgress: (share) => onProgress(share, 1),
  }),
);
