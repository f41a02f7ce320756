import { useTitle } from "../parts/title";
import { Waiting } from "../parts/waiting";
import { Sheet } from "../screens/torque";
import { getTorqueSheet } from "../sync/api";
import { useLoaded } from "../sync/loaded";
import { say } from "../words/say";
import { DeskJobHead } from "./job_head";

/** The torque sheet at the desk: what was asked, pulled and is open, with the drawing of each pattern. */
export function TorqueTable({ job }: { readonly job: string; readonly about: string }) {
  useTitle(`${job}: ${say("desk.torque-table")}`);
  const [loaded, again] = useLoaded(() => getTorqueSheet(job));
  return (
    <>
      <DeskJobHead job={job} here="torque-table" />
      <Waiting loaded={loaded} what={say("desk.torque-table")} again={again}>
        {(sheet) => <Sheet sheet={sheet} />}
      </Waiting>
    </>
  );
}
