import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

import type { Loaded } from "../sync/loaded";
import { say } from "../words/say";
import { Waiting } from "./waiting";

interface Props<P> {
  readonly load: () => Promise<ComponentType<P>>;
  readonly what: string;
  readonly with: P;
}

/** Show a screen whose program is fetched only when somebody goes there. */
export function Later<P extends object>({ load, what, with: props }: Props<P>) {
  const [Screen, setScreen] = useState<Loaded<ComponentType<P>>>("waiting");
  const fetchIt = () => {
    setScreen("waiting");
    load().then(
      (screen) => setScreen({ here: screen }),
      () => setScreen({ trouble: say("failed.offline") }),
    );
  };
  useEffect(fetchIt, []);
  return (
    <Waiting loaded={Screen} what={what} again={fetchIt}>
      {(Found) => <Found {...props} />}
    </Waiting>
  );
}
