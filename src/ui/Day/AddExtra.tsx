import { type FormEvent, useId, useState } from "react";
import { addExtra, extraProblem } from "../../jobs/day/changeDay.ts";
import { useChangeDay } from "./useChangeDay.ts";

interface AddExtraProps {
  readonly day: string;
  /** how many there are */
  readonly extras: number;
}

/** Something taken along that no job asks for. */
export function AddExtra({ day, extras }: AddExtraProps) {
  const { change, problem } = useChangeDay(day);
  const name = useId();
  const [what, setWhat] = useState("");
  const [count, setCount] = useState("1");
  const [wrong, setWrong] = useState("");
  const [id, setId] = useState(() => crypto.randomUUID());
  const add = async (event: FormEvent) => {
    event.preventDefault();
    const why = extraProblem(what, count, extras);
    setWrong(why ?? "");
    if (why || !(await change(addExtra(id, what, count)))) return;
    setWhat("");
    setCount("1");
    setId(crypto.randomUUID());
  };
  return (
    <form className="day-extra" onSubmit={(event) => void add(event)} noValidate>
      <div>
        <label htmlFor={`${name}-what`}>Take along as well</label>
        <input
          id={`${name}-what`}
          value={what}
          aria-invalid={wrong !== ""}
          aria-describedby={`${name}-wrong`}
          onChange={({ target }) => setWhat(target.value)}
        />
      </div>
      <div className="day-extra-count">
        <label htmlFor={`${name}-count`}>Count</label>
        <input
          id={`${name}-count`}
          inputMode="numeric"
          value={count}
          aria-invalid={wrong !== ""}
          aria-describedby={`${name}-wrong`}
          onChange={({ target }) => setCount(target.value)}
        />
      </div>
      <button type="submit" className="button">
        Add to the list
      </button>
      {(wrong || problem) && (
        <p id={`${name}-wrong`} className="problem" role="alert">
          {wrong || problem}
        </p>
      )}
    </form>
  );
}
