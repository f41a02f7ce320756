import { useState } from "preact/hooks";

import { goTo } from "../place";
import { pathOf } from "../route";
import { say } from "../words/say";
import type { DeskRoute, ShopView } from "./route";

const ROOMS: readonly ShopView[] = ["board", "questions", "statistics", "labels", "transfer"];

/** The line at the top of every screen of the desk: the rooms of the shop, and the search box. */
export function DeskHead({ here }: { readonly here: DeskRoute }) {
  const job = here.screen === "review" ? here.job : "";
  const [words, setWords] = useState(here.view === "search" ? here.about : "");
  const search = (event: Event) => {
    event.preventDefault();
    if (words.trim()) goTo({ screen: "desk", view: "search", about: words.trim() });
  };
  return (
    <header class="desk-head">
      <nav aria-label={say("desk.title")}>
        <ul class="desk-rooms plain">
          {ROOMS.map((view) => (
            <li key={view}>
              <a href={view === "board" ? "/" : pathOf({ screen: "desk", view, about: view === "labels" ? "" : job })} aria-current={view === here.view ? "page" : undefined}>
                {say(`desk.${view}`)}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <form role="search" class="search-box" onSubmit={search}>
        <label class="hidden" for="desk-search">{say("desk.search.label")}</label>
        <input
          id="desk-search"
          type="search"
          placeholder={say("desk.search.example")}
          value={words}
          onInput={(event) => setWords(event.currentTarget.value)}
        />
        <button type="submit">{say("desk.search")}</button>
      </form>
    </header>
  );
}
