import { render } from "preact";
import { useEffect, useRef } from "preact/hooks";

import type { FirstView, HandView } from "./hand/route";
import type { DeskRoute } from "./desk/route";
import { Gate } from "./parts/gate";
import { Later } from "./parts/later";
import { OutboxLine } from "./parts/outbox_line";
import { PersonLine } from "./parts/person_line";
import { UpdateLine } from "./parts/update_line";
import { keepCodesWhole } from "./parts/whole_codes";
import { followLinks, place } from "./place";
import { pathOf, type Route } from "./route";
import { Container } from "./screens/container";
import { Containers } from "./screens/containers";
import { Entries } from "./screens/entries";
import { Findings } from "./screens/findings";
import { Jobs } from "./screens/jobs";
import { Missing } from "./screens/missing";
import { Photo } from "./screens/photo";
import { Photos } from "./screens/photos";
import { keepPage } from "./sw/here";
import type { WhoView } from "./who/route";
import { say } from "./words/say";
import { speakAsHere } from "./words/speak";
import type { WorkView } from "./work/route";

const loadDesk = () => import("./desk/desk").then(({ Desk }) => Desk);
const loadWho = (view: WhoView) => () => import("./who/here").then(({ WHO }) => WHO[view]());
const loadWork = (view: WorkView) => () => import("./work/here").then(({ WORK }) => WORK[view]);
const loadPhone = () => import("./phone/here").then(({ loadWaiting }) => loadWaiting());
const loadSort = () => import("./phone/here").then((here) => here.loadSort());
const loadChecks = () => import("./screens/checks").then(({ Checks }) => Checks);
const loadTorque = () => import("./screens/torque").then(({ Torque }) => Torque);
const loadLabel = () => import("./screens/label").then(({ Label }) => Label);
const loadBag = () => import("./screens/bag").then(({ Bag }) => Bag);

const loadHand = (view: HandView) => () => import("./hand/here").then(({ HAND }) => HAND[view]());
const loadFirst = (view: FirstView) => () => import("./hand/here").then(({ FIRST }) => FIRST[view]());

const BOARD: DeskRoute = { screen: "desk", view: "board", about: "" };
/** The list of jobs is the lead's board where there is room for it. */
const isWide = matchMedia("(min-width: 64rem)").matches;

function Page() {
  const path = pathOf(place.value);
  const first = useRef(true);
  useEffect(() => {
    if (!first.current) document.querySelector<HTMLElement>("h1")?.focus({ preventScroll: true });
    first.current = false;
  }, [path]);
  return (
    <>
      <UpdateLine />
      <OutboxLine />
      <PersonLine />
      <main key={path}>
        <Gate>{screenAt(place.value)}</Gate>
      </main>
    </>
  );
}

function screenAt(route: Route) {
  switch (route.screen) {
    case "jobs":
      return isWide ? <Later load={loadDesk} what={say("nav.desk")} with={{ route: BOARD }} /> : <Jobs />;
    case "desk":
    case "review":
      return <Later load={loadDesk} what={say("nav.desk")} with={{ route }} />;
    case "checks":
      return <Later key="checks" load={loadChecks} what={say("checks.title")} with={{ check: route.check }} />;
    case "findings":
      return <Findings job={route.job} />;
    case "containers":
      return <Containers job={route.job} />;
    case "bag":
      return <Later load={loadBag} what={say("bag.title")} with={{ job: route.job }} />;
    case "work":
      return <Later key={route.view} load={loadWork(route.view)} what={route.job} with={{ job: route.job, about: route.about }} />;
    case "container":
      return <Container job={route.job} container={route.container} />;
    case "photos":
      return <Photos job={route.job} />;
    case "photo":
      return <Photo job={route.job} photo={route.photo} />;
    case "torque":
      return <Later key="torque" load={loadTorque} what={say("nav.torque")} with={{ job: route.job }} />;
    case "entries":
      return <Entries job={route.job} />;
    case "label":
      return <Later load={loadLabel} what={say("label.title", { code: route.code })} with={{ code: route.code }} />;
    case "hand":
      return <Later load={loadHand(route.view)} what={route.job} with={{ job: route.job, about: route.about }} />;
    case "first":
      return <Later load={loadFirst(route.view)} what={say("first.time")} with={{}} />;
    case "who":
      return <Later load={loadWho(route.view)} what={say("who.here")} with={{}} />;
    case "phone":
      return route.view === "sort" ? (
        <Later load={loadSort} what={route.job} with={{ job: route.job }} />
      ) : (
        <Later load={loadPhone} what={say("phone")} with={{}} />
      );
    case "missing":
      return <Missing />;
  }
}

keepCodesWhole();
followLinks();
const root = document.getElementById("page");
void speakAsHere().finally(() => root && render(<Page />, root));
void import("./sync/session").then(({ startSession }) => startSession());
void keepPage();
