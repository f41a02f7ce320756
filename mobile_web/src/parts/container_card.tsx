import { pathOf } from "../route";
import type { Container } from "../sync/api";
import { piecesWords } from "../words/container";
import { say } from "../words/say";
import { Picture } from "./photo_tile";

interface Props {
  readonly job: string;
  readonly container: Container;
}

/** A bag or tray in the list: its name, what lies in it, its last photo. */
export function ContainerCard({ job, container }: Props) {
  const photo = container.photos[0];
  return (
    <a class="card whole beside" href={pathOf({ screen: "container", job, container: container.container })}>
      <span class="said">
        <strong class="name">{container.container}</strong>
        <span class="quiet">
          {container.kind} · {container.label ? say("container.label", { label: container.label }) : say("container.no.label")}
        </span>
        {container.contents.length === 0 && <span>{say("container.empty")}</span>}
        {container.contents.map((pieces) => (
          <span key={`${pieces.set}/${pieces.type}/${pieces.new}`}>{piecesWords(pieces)}</span>
        ))}
      </span>
      {photo && <Picture photo={photo} />}
    </a>
  );
}
