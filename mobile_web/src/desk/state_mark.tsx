import type { AccessNode } from "../sync/desk";
import { say } from "../words/say";

type State = AccessNode["state"];

/** The shape of a state, 16 by 16: nothing to read into a colour. */
export function StateShape({ state }: { readonly state: State }) {
  switch (state) {
    case "untouched":
      return <circle cx={8} cy={8} r={3} class="mark-fill" />;
    case "off":
      return <rect x={2} y={2} width={12} height={12} class="mark-line" stroke-dasharray="3 2" />;
    case "half":
      return (
        <>
          <rect x={2} y={2} width={12} height={12} class="mark-line" />
          <rect x={2} y={8} width={12} height={6} class="mark-fill" />
        </>
      );
    case "back":
      return <rect x={1} y={1} width={14} height={14} class="mark-fill" />;
    default:
      return <path d="M8 0 16 15H0Z" class="mark-fill" />;
  }
}

/** A state as shape and word. */
export function StateMark({ state }: { readonly state: State }) {
  return (
    <span class={`state ${state}`}>
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">
        <StateShape state={state} />
      </svg>{" "}
      {say(`state.${state}`)}
    </span>
  );
}
