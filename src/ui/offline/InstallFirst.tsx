/** Stands where a job would be taken, on a tablet whose browser tab is no place for one. */
export function InstallFirst() {
  return (
    <p className="problem">
      Install Latchline before it takes a job: tap Share, then "Add to Home Screen", and open it
      from there. On this tablet a browser tab and the installed app keep separate stores, and a
      tab's is emptied after a week without use. What is in this tab already does not go along: save
      its pack and import it in the app.
    </p>
  );
}
