import { pathOf } from "../route";
import { shown } from "../scan/label_code";
import type { Container } from "../sync/api";
import { bornBy, piecesWords } from "../words/container";
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
        <strong class={shown(container.container) === container.container ? "name" : "name code"}>{shown(container.container)}</strong>
        <span class="quiet">
          {bornBy(container)}
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
