import { useCallback, useEffect, useRef, useState } from "react";
import type { AboutWell } from "../../jobs/diagnosis/rank.ts";
import type { NoRanking, Ranking } from "../../jobs/diagnosis/ranking.ts";
import type { UnitSystem } from "../../jobs/display.ts";
import type { Investigation } from "../../jobs/records/investigation.ts";
import { Cancelled, WorkerClient } from "../workerClient.ts";

export interface RankRequest {
  readonly given: AboutWell;
  readonly investigation: Investigation;
  readonly units: UnitSystem;
  /** absolute, Pa */
  readonly atmosphere: number;
}

export type Answer =
  | { readonly is: "working"; readonly share: number }
  | { readonly is: "stopped" }
  | { readonly is: "failed"; readonly why: string }
  | { readonly is: "there"; readonly ranking: Ranking | NoRanking };

export interface RankingNow {
  readonly answer: Answer;
  readonly cancel: () => void;
  readonly again: () => void;
}

class RankClient extends WorkerClient<RankRequest> {
  constructor() {
    super(() => new Worker(new URL("./rankWorker.ts", import.meta.url), { type: "module" }));
  }
}

/** The ranking of what is known now, worked out anew when that changes. @param key of everything it is made from */
export function useRanking(request: RankRequest, key: string): RankingNow {
  const client = useRef<RankClient>(undefined);
  client.current ??= new RankClient();
  const asked = useRef(request);
  asked.current = request;
  const [turn, setTurn] = useState(0);
  const [found, setFound] = useState<{ readonly of: string; readonly answer: Answer }>();
  const of = `${turn} ${key}`;
  useEffect(() => {
    const worker = client.current as RankClient;
    let isCurrent = true;
    const tell = (answer: Answer) => isCurrent && setFound({ of, answer });
    tell({ is: "working", share: 0 });
    worker
      .ask<Ranking | NoRanking>(asked.current, (share) => tell({ is: "working", share }))
      .then(
        (ranking) => tell({ is: "there", ranking }),
        (error) =>
          tell(
            error instanceof Cancelled
              ? { is: "stopped" }
              : { is: "failed", why: (error as Error).message },
          ),
      );
    return () => {
      isCurrent = false;
      worker.cancel();
    };
  }, [of]);
  const cancel = useCallback(() => client.current?.cancel(), []);
  const again = useCallback(() => setTurn((before) => before + 1), []);
  return {
    answer: found?.of === of ? found.answer : { is: "working", share: 0 },
    cancel,
    again,
  };
}
