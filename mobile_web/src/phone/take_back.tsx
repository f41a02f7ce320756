import { useState } from "preact/hooks";

import { say } from "../words/say";

interface Props {
  readonly what: string;
  readonly take: () => Promise<void>;
}

/** Take something back in two taps: the second one says what goes. */
export function TakeBack({ what, take }: Props) {
  const [asked, setAsked] = useState(false);
  if (!asked) {
    return (
      <button type="button" onClick={() => setAsked(true)}>
        {say("phone.take.back")}
      </button>
    );
  }
  return (
    <div class="actions">
      <button type="button" onClick={() => void take()}>
        {what}
      </button>
      <button type="button" onClick={() => setAsked(false)}>
        {say("phone.keep.it")}
      </button>
    </div>
  );
}
