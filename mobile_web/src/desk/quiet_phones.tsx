import { useLoaded } from "../sync/loaded";
import { listPhones } from "../sync/release";
import { moment } from "../words/moment";
import { say } from "../words/say";

/** The phones that wrote in this job and were not heard of for a while: what they hold is in no verdict. */
export function QuietPhones({ job }: { readonly job: string }) {
  const [loaded] = useLoaded(() => listPhones(job));
  const quiet = loaded !== "waiting" && "here" in loaded ? loaded.here.filter((phone) => phone.quiet) : [];
  if (quiet.length === 0) return null;
  return (
    <section class="card word">
      <h2>{say("quiet.title")}</h2>
      <ul class="plain">
        {quiet.map(({ device, by, heard }) => (
          <li key={device}>{say("quiet.phone", { by, device, when: moment(heard) })}</li>
        ))}
      </ul>
      <p>{say("quiet.why")}</p>
    </section>
  );
}
