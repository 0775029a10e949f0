import {
  equaliseOperation,
  gasColumnOperation,
  gasZOperation,
  nitrogenStateOperation,
} from "./gasOperations.ts";
import type { Operation } from "./operation.ts";
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
  trajectoryOperation,
  pushOutOperation,
  lubricatorFitOperation,
  equaliseOperation,
];
