import type { Check } from "./check.ts";
import type { CheckName } from "./checkNames.ts";
import {
  counterAgrees,
  gaugeProvesBore,
  neighboursAgree,
  rightPocket,
  sameDepthAsPulled,
} from "./depthChecks.ts";
import {
  clearBore,
  highTest,
  lowTest,
  lubricatorLength,
  pushOutBeaten,
  stackCoversTestPressure,
  unionCoversTheWell,
  wireValvesInStack,
} from "./envelopeChecks.ts";
import { fresh, levelled, steady, steadyTimeAgreed } from "./levelChecks.ts";
import { catcherBelowMandrel, pocketIsEmpty } from "./pocketChecks.ts";
import { proofOfSeat, provedBothWays } from "./proofChecks.ts";
import { fullTurns, insideWhatWasTested, safetyValvesAsRecorded } from "./treeChecks.ts";
import {
  kickoverToolMatches,
  oldSerialMatches,
  pinsAsProgrammed,
  pulledOverPickingUp,
  serialMatches,
  setPressure,
  witnessedByAnother,
} from "./valveChecks.ts";

/** The checks by the names that run sheets use. */
export const checks: Readonly<Record<CheckName, Check>> = {
  "stack covers the test pressure": stackCoversTestPressure,
  "wire valves in the stack": wireValvesInStack,
  "low test": lowTest,
  "high test": highTest,
  "lubricator length": lubricatorLength,
  "push-out beaten": pushOutBeaten,
  "clear bore": clearBore,
  "gauge proves the bore": gaugeProvesBore,
  "full turns": fullTurns,
  "safety valves as recorded": safetyValvesAsRecorded,
  "inside what was tested": insideWhatWasTested,
  "union covers the well": unionCoversTheWell,
  "counter agrees": counterAgrees,
  "right pocket": rightPocket,
  "neighbours agree": neighboursAgree,
  "same depth as pulled": sameDepthAsPulled,
  "pulled over picking up": pulledOverPickingUp,
  "pocket is empty": pocketIsEmpty,
  "catcher below the mandrel": catcherBelowMandrel,
  "old serial matches": oldSerialMatches,
  "pins as programmed": pinsAsProgrammed,
  "witnessed by another": witnessedByAnother,
  levelled,
  steady,
  "steady time agreed": steadyTimeAgreed,
  fresh,
  "serial matches": serialMatches,
  "set pressure": setPressure,
  "kickover tool matches": kickoverToolMatches,
  "proof of seat": proofOfSeat,
  "proved both ways": provedBothWays,
};
