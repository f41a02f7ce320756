import { Waiting } from "../parts/waiting";
import { getWaysIn, type WaysIn } from "../sync/people";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";
import { WhoPage } from "./page";

/** Hold another phone's camera before this: it opens the page, or first the guide to the shop's certificate. */
export function AnotherPhone() {
  const [loaded, again] = useLoaded(getWaysIn);
  return (
    <WhoPage title={say("phone.another")} up="/who">
      <Waiting loaded={loaded} what={say("phone.another")} again={again}>
        {(ways) => (ways.is_far ? <Ways ways={ways} /> : <p>{say("phone.near")}</p>)}
      </Waiting>
    </WhoPage>
  );
}

function Ways({ ways }: { readonly ways: WaysIn }) {
  return (
    <>
      {ways.guide && (
        <>
          <h2>{say("phone.first")}</h2>
          <p>{say("phone.first.why")}</p>
          <Symbol rows={ways.guide.rows} address={ways.guide.address} />
          <p>{say("phone.mark")}</p>
          <p class="mark-words">{ways.fingerprint}</p>
        </>
      )}
      <h2>{say("phone.page")}</h2>
      <Symbol rows={ways.page.rows} address={ways.page.address} />
      {ways.is_read_along && <p class="trouble">{say("phone.read.along")}</p>}
      <p>{say("phone.then")}</p>
    </>
  );
}

const QUIET = 4;

function Symbol({ rows, address }: { readonly rows: readonly string[]; readonly address: string }) {
  const width = rows.length + 2 * QUIET;
  const path = rows
    .flatMap((row, y) => [...row].map((module, x) => (module === "1" ? `M${x + QUIET} ${y + QUIET}h1v1h-1z` : "")))
    .join("");
  return (
    <figure class="plain">
      <svg class="symbol" viewBox={`0 0 ${width} ${width}`} role="img" aria-label={say("phone.symbol", { address })} shape-rendering="crispEdges">
        <rect width={width} height={width} fill="#ffffff" />
        <path d={path} fill="#000000" />
      </svg>
      <figcaption>{address}</figcaption>
    </figure>
  );
}
