/** Logs that a backup brought in although they do not hold: nothing of them was left out, and nothing of it is hidden. */
export function BrokenLogs({ says }: { readonly says: readonly string[] }) {
  return says.map((each) => (
    <p key={each} className="problem" role="alert">
      {each} It was brought in as it is, with every event. The run sheet and the review say so, too,
      and the record cannot be approved.
    </p>
  ));
}
