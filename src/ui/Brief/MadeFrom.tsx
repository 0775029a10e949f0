import { format, parseISO } from "date-fns";
import { Link } from "wouter";
import { underWork } from "../../jobs/diagnosis/changeInvestigation.ts";
import { agreedAnswer } from "../../jobs/diagnosis/nextAction.ts";
import { begunFrom, saysOtherwise } from "../../jobs/diagnosis/standsNow.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import type { Well } from "../../jobs/records/well.ts";
import type { Library } from "../../jobs/store/library.ts";
import { useLibrary } from "../storeContext.ts";
import type { PlannedJob } from "../usePlannedJob.ts";
import { useAnswer } from "../WhichValve/useAnswer.ts";

interface MadeFromProps {
  readonly live: PlannedJob;
}

/** The investigation that a job was made from, and whether its evidence still says what was agreed on. */
export function MadeFrom({ live }: MadeFromProps) {
  const id = live.record.well;
  const library = useLibrary({
    records: { wells: [id] },
    investigationsOf: [id],
    whole: ["policies"],
  });
  const well = library?.wells.find((each) => each.id === id);
  const led = library?.investigations.find(({ agreed }) => agreed?.job === live.id);
  if (!library || !well || !led?.agreed) return null;
  const begun = begunFrom(led, [live.state]);
  return (
    <Led
      live={live}
      led={led}
      agreed={led.agreed}
      well={begun?.well ?? well}
      library={begun?.well ? { ...library, valves: begun.installed } : library}
    />
  );
}

interface LedProps extends MadeFromProps {
  readonly led: Investigation;
  readonly agreed: NonNullable<Investigation["agreed"]>;
  readonly well: Well;
  readonly library: Library;
}

function Led({ live: { state }, led, agreed, well, library }: LedProps) {
  const { answer } = useAnswer(led, well, library);
  const otherwise = answer.is === "there" ? saysOtherwise(agreed, answer.ranking) : undefined;
  const latest = underWork(library.investigations);
  return (
    <section className="brief-led" aria-labelledby="brief-led">
      <h2 id="brief-led">Made from an investigation</h2>
      <p>
        {agreedAnswer(agreed)}. Agreed by {agreed.by},{" "}
        {format(parseISO(agreed.at), "d MMM yyyy HH:mm")}.
      </p>
      {answer.is !== "there" && (
        <p className="small soft">
          {answer.is === "working"
            ? "Whether the evidence still says so is being worked out."
            : "Whether the evidence still says so could not be worked out here: look at the investigation."}
        </p>
      )}
      {otherwise && (
        <p className="caution" role="status">
          <span aria-hidden="true">!</span>
          <span>
            <strong>The evidence says otherwise now.</strong> {otherwise}{" "}
            {state.stage === "draft"
              ? "Settle it with the production engineer before the programme is issued."
              : "Nothing in the issued programme has changed by it; the production engineer decides whether the work goes on as it is."}
          </span>
        </p>
      )}
      {latest && latest.id !== led.id && (
        <p>
          The well is being looked at anew since {format(parseISO(latest.opened), "d MMM yyyy")}.
        </p>
      )}
      <Link href={`/wells/${led.well}/fault`} className="button">
        Which valve is at fault
      </Link>
    </section>
  );
}
