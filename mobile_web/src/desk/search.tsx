import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { asPrinted } from "../scan/label_code";
import { useLoaded } from "../sync/loaded";
import { search, type Found } from "../sync/records";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";
import { arrived } from "./arrived";

/** What the search found over all jobs, best first, each leading to the job that it is of. */
export function Search({ about }: { readonly about: string }) {
  useTitle(`${say("desk.search")}: ${about}`);
  const [loaded, again] = useLoaded(() => search(about));
  return (
    <>
      <h1 tabIndex={-1} ref={arrived}>{say("search.for", { words: about })}</h1>
      <Waiting loaded={loaded} what={say("desk.search")} again={again}>
        {(found) => <Hits found={found} />}
      </Waiting>
    </>
  );
}

function Hits({ found }: { readonly found: Found }) {
  if (found.hits.length === 0) return <p class="headline" role="status">{say("search.none")}</p>;
  return (
    <>
      <p role="status">
        {say("search.found", { n: found.hits.length })} {!found.all_words && say("search.some.words")}
      </p>
      <ol class="plain hits">
        {byJob(found.hits).map(([job, hits]) => (
          <li key={job}>
            <h2>
              <a href={pathOf({ screen: "review", view: "review", job, about: "" })}>
                {hits[0]!.machine || job} <span class="quiet">{hits[0]!.title} ({job})</span>
              </a>
            </h2>
            <ul class="plain">
              {hits.map((hit) => (
                <li key={hit.entry} class="found">
                  <span>
                    {ownWord("about", hit.about)}: <strong>{asPrinted(hit.name)}</strong> {hit.said !== hit.name && asPrinted(hit.said)}
                  </span>
                  <span class="quiet">{say("entry.by", { by: hit.by, when: moment(hit.at) })}</span>
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
    </>
  );
}

/** Put the hits of one job together, the jobs in the order of their best hit. */
function byJob(hits: Found["hits"]): readonly (readonly [string, Found["hits"]])[] {
  const jobs = new Map<string, Found["hits"]>();
  for (const hit of hits) jobs.set(hit.job, [...(jobs.get(hit.job) ?? []), hit]);
  return [...jobs];
}
