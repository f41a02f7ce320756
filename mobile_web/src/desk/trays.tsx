import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { pathOf } from "../route";
import { listTrays, type Tray } from "../sync/desk";
import { useLoaded } from "../sync/loaded";
import { piecesWords } from "../words/container";
import { moment } from "../words/moment";
import { ownWord } from "../words/own_word";
import { say } from "../words/say";
import { DeskJobHead } from "./job_head";
import { TrayPhoto } from "./tray_photo";

/** The trays: the last photo with what the reader saw in it, and the counts beside each other. */
export function Trays({ job }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.trays")}`);
  const [loaded, again] = useLoaded(() => listTrays(job));
  return (
    <>
      <DeskJobHead job={job} here="trays" />
      <Waiting loaded={loaded} what={say("desk.trays")} again={again}>
        {(trays) =>
          trays.length ? (
            <ul class="plain tray-cards">
              {trays.map((tray) => (
                <li key={tray.container}>
                  <TrayCard job={job} tray={tray} />
                </li>
              ))}
            </ul>
          ) : (
            <p class="headline">{say("containers.none")}</p>
          )
        }
      </Waiting>
    </>
  );
}

function TrayCard({ job, tray }: { readonly job: string; readonly tray: Tray }) {
  const full = tray.contents.length > 0;
  return (
    <article class={full ? "card tray full" : "card tray"} aria-label={tray.container}>
      <h2>
        <a href={pathOf({ screen: "container", job, container: tray.container })}>{tray.label ?? tray.container}</a>
      </h2>
      <p class="quiet">
        {ownWord("container", tray.kind)} · {tray.place ? say("container.place", { place: tray.place }) : say("container.place.unknown")}
      </p>
      {full ? (
        <ul class="plain big-list">
          {tray.contents.map(piecesWords).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      ) : (
        <p>{say("container.empty")}</p>
      )}
      <Counts tray={tray} />
      <TrayPhoto job={job} tray={tray} />
    </article>
  );
}

function Counts({ tray }: { readonly tray: Tray }) {
  const lines: readonly (readonly [string, string | null])[] = [
    [say("tray.record"), String(tray.record)],
    [say("tray.picture"), tray.picture && say("tray.at", { n: tray.picture, when: moment(tray.picture_at) })],
    [say("tray.by.hand"), tray.by_hand === null ? null : say("tray.hand", { n: tray.by_hand, by: tray.counted_by ?? "", when: moment(tray.counted_at) })],
    [say("tray.looked"), tray.looked_empty && moment(tray.looked_empty)],
  ];
  return (
    <dl class="facts counts">
      {lines.map(([name, said]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{said ?? "–"}</dd>
        </div>
      ))}
    </dl>
  );
}
