import { Link } from "wouter";
import { TopBar } from "../TopBar/TopBar.tsx";

/** A page or a record that this tablet does not hold. */
export function Nowhere({ what }: { readonly what: string }) {
  return (
    <>
      <TopBar title="Not here" />
      <main className="page">
        <p>
          There is no such {what} on this tablet. It may have been removed, or its pack was never
          imported.
        </p>
        <Link href="/" className="button next">
          Go to the board
        </Link>
      </main>
    </>
  );
}
