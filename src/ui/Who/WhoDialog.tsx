import { type FormEvent, useState } from "react";
import { type Role, roles } from "../../jobs/roles.ts";
import { changeSettings, useSettings } from "../settings.ts";
import { useDialog } from "../useDialog.ts";
import "./WhoDialog.css";

const does: Readonly<Record<Role, string>> = {
  planner: "keeps the records, issues the programme",
  "wireline supervisor": "runs the sheet, releases hold points",
  "winch operator": "enters readings",
  "field operator": "holds the gas and the tree",
  "production engineer": "reviews and approves",
  "well owner's representative": "witnesses",
};

/** Roles are chosen, not logged in: name and role sign every entry from here on. */
export function WhoDialog({ onClose }: { readonly onClose: () => void }) {
  const { actor, size } = useSettings();
  const [name, setName] = useState(actor?.name ?? "");
  const [role, setRole] = useState<Role>(actor?.role ?? "wireline supervisor");
  const [problem, setProblem] = useState("");
  const dialog = useDialog();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") {
      setProblem("Enter a name: it signs every entry.");
      return;
    }
    changeSettings({ actor: { name: name.trim(), role } });
    onClose();
  };
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby="who-title">
      <form className="who-form" onSubmit={submit}>
        <h2 id="who-title">Who holds the tablet?</h2>
        <label>
          Name
          <input
            name="name"
            value={name}
            autoComplete="off"
            aria-invalid={problem !== ""}
            onChange={(event) => setName(event.target.value)}
          />
        </label>
        {problem && <p className="problem">{problem}</p>}
        <fieldset>
          <legend>Role</legend>
          <div className="who-roles">
            {roles.map((each) => (
              <label key={each} className="who-option">
                <input
                  type="radio"
                  name="role"
                  value={each}
                  checked={role === each}
                  onChange={() => setRole(each)}
                />
                <span>
                  <strong>{each}</strong>
                  <span className="soft small">{does[each]}</span>
                </span>
              </label>
            ))}
          </div>
        </fieldset>
        <label className="who-option">
          <input
            type="checkbox"
            checked={size === "mounted"}
            onChange={(event) =>
              changeSettings({ size: event.target.checked ? "mounted" : "hand" })
            }
          />
          <span>
            <strong>Larger text</strong>
            <span className="soft small">for a tablet mounted in the cab</span>
          </span>
        </label>
        <div className="row">
          <button type="submit" className="button next">
            Sign as {name.trim() || "…"}, {role}
          </button>
          <button type="button" className="button quiet" onClick={onClose}>
            Leave as it is
          </button>
        </div>
      </form>
    </dialog>
  );
}
