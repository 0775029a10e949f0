import { lazy, Suspense, useEffect, useState } from "react";
import { Route, Switch } from "wouter";
import type { Held } from "../../jobs/store/held.ts";
import type { Store } from "../../jobs/store/store.ts";
import { RunSheet } from "../RunSheet/RunSheet.tsx";
import { useSettings } from "../settings.ts";
import { StoreProvider } from "../storeContext.ts";
import { Nowhere } from "./Nowhere.tsx";
import { Replaced } from "./Replaced.tsx";
import { StoreStanding } from "./StoreStanding.tsx";

// What a crew needs first is small; the rest comes later and is kept all the same.
const Board = lazy(() => import("../Board/Board.tsx"));
const BringIn = lazy(() => import("../BringIn/BringInScreen.tsx"));
const Brief = lazy(() => import("../Brief/Brief.tsx"));
const WellScreen = lazy(() => import("../WellScreen/WellScreen.tsx"));
const Editor = lazy(() => import("../RecordEditor/EditorScreen.tsx"));
const LibraryScreen = lazy(() => import("../Library/LibraryScreen.tsx"));
const ValveLife = lazy(() => import("../ValveLife/ValveLife.tsx"));
const SetSheet = lazy(() => import("../SetSheet/SetSheet.tsx"));
const SheetEditor = lazy(() => import("../SheetEditor/SheetEditor.tsx"));
const LineScreen = lazy(() => import("../LineScreen/LineScreen.tsx"));
const StringBuilder = lazy(() => import("../StringBuilder/StringBuilder.tsx"));
const FishingSketch = lazy(() => import("../FishingSketch/FishingSketch.tsx"));
const StorageScreen = lazy(() => import("../Storage/StorageScreen.tsx"));
const Emptied = lazy(() => import("../Storage/Emptied.tsx"));
const Plan = lazy(() => import("../Plan/Plan.tsx"));
const Day = lazy(() => import("../Day/Day.tsx"));
const Codes = lazy(() => import("../Codes/Codes.tsx"));
const CloseOut = lazy(() => import("../CloseOut/CloseOutScreen.tsx"));
const Report = lazy(() => import("../Report/ReportScreen.tsx"));
const Review = lazy(() => import("../Review/ReviewScreen.tsx"));

interface AppProps {
  readonly store: Store;
  /** what the tablet held, when its store is empty now */
  readonly lost: Held | undefined;
}

export function App({ store, lost }: AppProps) {
  const [gone, setGone] = useState(lost);
  const { skin, size } = useSettings();
  useEffect(() => {
    document.documentElement.dataset.skin = skin;
    document.documentElement.dataset.size = size;
  }, [skin, size]);
  return (
    <StoreProvider value={store}>
      <StoreStanding />
      <Replaced />
      <Suspense fallback={<main className="page" aria-busy="true" />}>
        {gone ? <Emptied held={gone} onDone={() => setGone(undefined)} /> : <Screens />}
      </Suspense>
    </StoreProvider>
  );
}

function Screens() {
  return (
    <Switch>
      <Route path="/" component={Board} />
      <Route path="/jobs/:id">{({ id }) => <Brief id={id} />}</Route>
      <Route path="/jobs/:id/run">{({ id }) => <RunSheet id={id} />}</Route>
      <Route path="/jobs/:id/close">{({ id }) => <CloseOut id={id} />}</Route>
      <Route path="/jobs/:id/review">{({ id }) => <Review id={id} />}</Route>
      <Route path="/jobs/:id/report">{({ id }) => <Report id={id} />}</Route>
      <Route path="/jobs/:id/set-sheet">{({ id }) => <SetSheet id={id} />}</Route>
      <Route path="/jobs/:id/sheet">{({ id }) => <SheetEditor id={id} />}</Route>
      <Route path="/jobs/:id/line">{({ id }) => <LineScreen id={id} />}</Route>
      <Route path="/jobs/:id/sketch">{({ id }) => <FishingSketch id={id} />}</Route>
      <Route path="/bring-in" component={BringIn} />
      <Route path="/plan" component={Plan} />
      <Route path="/days/:day">{({ day }) => <Day day={day} />}</Route>
      <Route path="/jobs/:id/codes">{({ id }) => <Codes id={id} />}</Route>
      <Route path="/read-codes">{() => <Codes />}</Route>
      <Route path="/storage" component={StorageScreen} />
      <Route path="/strings/:id">{({ id }) => <StringBuilder id={id} />}</Route>
      <Route path="/wells/:id">{({ id }) => <WellScreen id={id} />}</Route>
      <Route path="/edit/:kind/:id">{({ kind, id }) => <Editor kind={kind} id={id} />}</Route>
      <Route path="/new/:kind">{({ kind }) => <Editor kind={kind} />}</Route>
      <Route path="/valve-life" component={ValveLife} />
      <Route path="/library/:kind?">{({ kind }) => <LibraryScreen kind={kind} />}</Route>
      <Route>
        <Nowhere what="page" />
      </Route>
    </Switch>
  );
}
