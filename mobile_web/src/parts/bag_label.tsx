import type { Known } from "../draft/known";
import { shown } from "../scan/label_code";
import { useUnfinished } from "../sw/quiet";
import { say } from "../words/say";
import { focused } from "./focused";
import { TypedLabel } from "./typed_label";

interface Props {
  readonly known: Known;
  readonly labels: readonly string[];
  readonly picture: string;
  readonly chosen: (label: string) => void;
  readonly again: () => void;
}

/** No label or several were read in the photo: choose one, or type what stands on it. */
export function BagLabel({ known, labels, picture, chosen, again }: Props) {
  useUnfinished(true);
  return (
    <>
      <div class="counted">
        <img src={picture} alt={say("bag.photo.alt.plain")} />
        <p class="label" tabIndex={-1} ref={focused}>{say(labels.length ? "bag.label.several" : "bag.label.none")}</p>
      </div>
      <div class="actions">
        {labels.map((label) => (
          <button type="button" key={label} onClick={() => chosen(label)}>
            {shown(label)}
          </button>
        ))}
        <button type="button" onClick={again}>
          {say("bag.again")}
        </button>
      </div>
      <TypedLabel known={known} chosen={chosen} />
    </>
  );
}
