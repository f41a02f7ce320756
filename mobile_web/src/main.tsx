import { render } from "preact";
import { useEffect, useRef } from "preact/hooks";

import { Later } from "./parts/later";
import { OutboxLine } from "./parts/outbox_line";
import { UpdateLine } from "./parts/update_line";
import { followLinks, place } from "./place";
import { pathOf, type Route } from "./route";
import { Checks } from "./screens/checks";
import { Container } from "./screens/container";
import { Containers } from "./screens/containers";
import { Entries } from "./screens/entries";
import { Findings } from "./screens/findings";
import { Jobs } from "./screens/jobs";
import { Label } from "./screens/label";
import { Missing } from "./screens/missing";
import { Photo } from "./screens/photo";
import { Photos } from "./screens/photos";
import { Torque } from "./screens/torque";
import { keepPage } from "./sw/here";
import { say } from "./words/say";

const loadBag = () => import("./screens/bag").then(({ Bag }) => Bag);

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
      <main key={path}>{screenAt(place.value)}</main>
    </>
  );
}

function screenAt(route: Route) {
  switch (route.screen) {
    case "jobs":
      return <Jobs />;
    case "checks":
      return <Checks check={route.check} />;
    case "findings":
      return <Findings job={route.job} />;
    case "containers":
      return <Containers job={route.job} />;
    case "bag":
      return <Later load={loadBag} what={say("bag.title")} with={{ job: route.job }} />;
    case "container":
      return <Container job={route.job} container={route.container} />;
    case "photos":
      return <Photos job={route.job} />;
    case "photo":
      return <Photo job={route.job} photo={route.photo} />;
    case "torque":
      return <Torque job={route.job} />;
    case "entries":
      return <Entries job={route.job} />;
    case "label":
      return <Label code={route.code} />;
    case "missing":
      return <Missing />;
  }
}

followLinks();
const root = document.getElementById("page");
if (root) render(<Page />, root);
void import("./outbox/here");
void keepPage();
