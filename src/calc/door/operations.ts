import {
  equaliseOperation,
  gasColumnOperation,
  gasZOperation,
  nitrogenStateOperation,
} from "./gasOperations.ts";
import {
  lineStretchOperation,
  lineTensionOperation,
  shearPinsOperation,
  weightIndicatorOperation,
} from "./lineOperations.ts";
import type { Operation } from "./operation.ts";
import { gasPassageOperation, hydrateOperation } from "./passageOperations.ts";
import {
  lubricatorFitOperation,
  pushOutOperation,
  trajectoryOperation,
} from "./stringOperations.ts";
import {
  domePressureOperation,
  valveSetOperation,
  valveStateOperation,
} from "./valveOperations.ts";

/** Every calculation that the command line offers, in the order it lists them. */
export const operations: readonly Operation[] = [
  nitrogenStateOperation,
  domePressureOperation,
  gasZOperation,
  gasColumnOperation,
  valveStateOperation,
  valveSetOperation,
  gasPassageOperation,
  trajectoryOperation,
  pushOutOperation,
  lineTensionOperation,
  weightIndicatorOperation,
  lineStretchOperation,
  shearPinsOperation,
  lubricatorFitOperation,
  equaliseOperation,
  hydrateOperation,
];
