/** An older window holds the store: what it was typing is not taken from under it. */
export function StoreBlocked() {
  return (
    <main className="page">
      <h1>Another window of Latchline is open, and it is an older one</h1>
      <p role="alert">
        This newer Latchline keeps more than the older one did and has to change this tablet's store
        first. Close the other window or tab that shows Latchline; what was typed there is kept.
        This one goes on by itself once it is closed.
      </p>
    </main>
  );
}
