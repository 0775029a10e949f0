import { ReadCodes } from "./ReadCodes.tsx";
import { ShowCodes } from "./ShowCodes.tsx";
import "./Codes.css";

/** The two ends of a hand-over by codes: a job's are shown; without a job, those on another screen are read. */
export default function Codes({ id }: { readonly id?: string }) {
  return id === undefined ? <ReadCodes /> : <ShowCodes id={id} />;
}
