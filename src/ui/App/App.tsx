import { lazy, Suspense, useEffect } from "react";
import { Route, Switch } from "wouter";
import type { Store } from "../../jobs/store/store.ts";
import { RunSheet } from "../RunSheet/RunSheet.tsx";
import { useSettings } from "../settings.ts";
import { StoreProvider } from "../storeContext.ts";
import { Nowhere } from "./Nowhere.tsx";
import { Replaced } from "./Replaced.tsx";

// What a crew needs first is small; the rest comes later and is kept all the same.
const Board = lazy(() => import("../Board/Board.tsx"));
const Brief = lazy(() => import("../Brief/Brief.tsx"));
const WellScreen = lazy(() => import("../WellScreen/WellScreen.tsx"));
const Editor = lazy(() => import("../RecordEditor/EditorScreen.tsx"));
const SetSheet = lazy(() => import("../SetSheet/SetSheet.tsx"));
const LineScreen = lazy(() => import("../LineScreen/LineScreen.tsx"));
const StringBuilder = lazy(() => import("../StringBuilder/StringBuilder.tsx"));
const FishingSketch = lazy(() => import("../FishingSketch/FishingSketch.tsx"));
const Review = lazy(() => import("../Review/ReviewScreen.tsx"));

export function App({ store }: { readonly store: Store }) {
  const { skin, size } = useSettings();
  useEffect(() => {
    document.documentElement.dataset.skin = skin;
    document.documentElement.dataset.size = size;
  }, [skin, size]);
  return (
    <StoreProvider value={store}>
      <Replaced />
      <Suspense fallback={<main className="page" aria-busy="true" />}>
        <Switch>
          <Route path="/" component={Board} />
          <Route path="/jobs/:id">{({ id }) => <Brief id={id} />}</Route>
          <Route path="/jobs/:id/run">{({ id }) => <RunSheet id={id} />}</Route>
          <Route path="/jobs/:id/review">{({ id }) => <Review id={id} />}</Route>
          <Route path="/jobs/:id/set-sheet">{({ id }) => <SetSheet id={id} />}</Route>
          <Route path="/jobs/:id/line">{({ id }) => <LineScreen id={id} />}</Route>
          <Route path="/jobs/:id/sketch">{({ id }) => <FishingSketch id={id} />}</Route>
          <Route path="/strings/:id">{({ id }) => <StringBuilder id={id} />}</Route>
          <Route path="/wells/:id">{({ id }) => <WellScreen id={id} />}</Route>
          <Route path="/edit/:kind/:id">{({ kind, id }) => <Editor kind={kind} id={id} />}</Route>
          <Route>
            <Nowhere what="page" />
          </Route>
        </Switch>
      </Suspense>
    </StoreProvider>
  );
}
