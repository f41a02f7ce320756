import { PhotoPins } from "../pins/photo_pins";
import { photoFor } from "../pins/which_photo";
import type { Pocket, PocketSet, StageAsked } from "../pocket/shape";
import { shownIn } from "../pocket/shown";
import { pathOf } from "../route";
import { stageWords } from "../words/torque";
import { newtonMetres } from "../words/newton_metres";
import { say, type Message } from "../words/say";

/** Where the pieces of a set go: photo with the holes ringed, how many, which tool, the value with its page. */
export function SetCard({ pocket, set }: { readonly pocket: Pocket; readonly set: string }) {
  const found = pocket.sets.find((each) => each.set === set);
  if (!found) return null;
  return (
    <section class="set-card" aria-label={set}>
      <Holes pocket={pocket} set={found} />
      <a class="button main" href={pathOf({ screen: "work", job: pocket.job, view: "back", about: set })}>{say("card.go", { name: set })}</a>
      <Facts pocket={pocket} set={found} />
    </section>
  );
}

/** The photo that shows a set, its open holes ringed. */
export function Holes({ pocket, set }: { readonly pocket: Pocket; readonly set: PocketSet }) {
  const photo = photoFor(pocket, set);
  if (!photo) return <p class="quiet">{say("card.no.photo")}</p>;
  return (
    <>
      <PhotoPins pocket={pocket} photo={photo} set={set.set} />
      {!photo.pins.some((pin) => pin.element === set.set) && <p class="quiet">{say("card.photo.only")}</p>}
    </>
  );
}

/** What is known of a set in a list of few words: bags, value, page, order, tool, what comes before and after. */
export function Facts({ pocket, set }: { readonly pocket: Pocket; readonly set: PocketSet }) {
  const out = set.holes.filter((hole) => hole.level === "empty" || hole.level === "parked").length;
  const { torque } = set;
  const over = set.lies_over.filter((each) => !each.on).map((each) => each.part);
  return (
    <>
      <p class="headline">{out ? say("card.holes", { n: `${out} × ${set.type ?? ""}`.trim() }) : set.left || say("card.none")}</p>
      <dl class="facts">
        <Fact name="card.bags" said={set.lies_in.map(({ container, place, n }) => say(place ? "card.lies.at" : "card.lies", { container: shownIn(pocket, container), place: place ?? "", n })).join(" · ")} />
        <Fact name="card.value" said={torque && !torque.hand_tight ? [torque.as_written, torque.condition].filter(Boolean).join(", ") : ""} />
        <Fact name="card.source" said={torque && !torque.hand_tight ? torque.source : ""} />
        <Fact name="card.stages" said={torque && torque.stages.length > 1 ? torque.stages.map(stageWords).join(" → ") : ""} />
        <Fact name={torque?.is_order_suggested ? "card.order.suggested" : "card.order"} said={torque && set.holes.length > 2 ? torque.order.join(" – ") : ""} />
        <Fact name="card.tool" said={[...new Set((torque?.stages ?? []).map(toolWords))].filter(Boolean).join(" → ")} />
        <Fact name="card.new" said={set.bring.join(", ")} />
        <Fact name="card.first" said={set.first.join(", ")} />
        <Fact name="card.over" said={over.join(", ")} />
        <Fact name="card.doubt" said={torque ? torque.warnings.join(" ") : ""} />
      </dl>
      {torque?.hand_tight && <p>{say("card.hand")}</p>}
      {!torque && <p class="quiet">{say("card.lacks")}</p>}
      {set.critical && <p><strong>{say("card.critical")}</strong></p>}
      {set.look_alikes.length > 0 && <p>{say("card.alike", { others: set.look_alikes.join(", ") })}</p>}
    </>
  );
}

function Fact({ name, said }: { readonly name: Message; readonly said: string }) {
  if (!said) return null;
  return (
    <div>
      <dt>{say(name)}</dt>
      <dd>{said}</dd>
    </div>
  );
}

/** Name the wrench that suits a stage best, and what to set on it. */
function toolWords(stage: StageAsked): string {
  if (stage.low_nm === null && stage.high_nm === null) return "";
  const best = stage.wrenches.find((each) => each.suits);
  if (!best) return say("card.no.wrench");
  return best.setting_nm === null ? best.wrench : say("card.wrench", { wrench: best.wrench, setting: newtonMetres(best.setting_nm) });
}
