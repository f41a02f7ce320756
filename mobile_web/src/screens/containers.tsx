import { Cautions } from "../parts/cautions";
import { ContainerCard } from "../parts/container_card";
import { JobHead } from "../parts/job_head";
import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { listContainers } from "../sync/api";
import { useLive } from "../sync/loaded";
import { say } from "../words/say";

/** The bags and trays of one job: what lies in each, by the record. */
export function Containers({ job }: { readonly job: string }) {
  useTitle(`${job}: ${say("containers.title")}`);
  const [loaded, again] = useLive(job, () => listContainers(job));
  return (
    <>
      <JobHead job={job} here="containers" />
      <Waiting loaded={loaded} what={say("containers.title")} again={again}>
        {(containers) =>
          containers.length ? (
            <>
              <Cautions messages={["caution.count"]} />
              <ul class="plain cards">
                {containers.map((container) => (
                  <li key={container.container}>
                    <ContainerCard job={job} container={container} />
                  </li>
                ))}
              </ul>
            </>
          ) : (
            <p class="headline">{say("containers.none")}</p>
          )
        }
      </Waiting>
    </>
  );
}
