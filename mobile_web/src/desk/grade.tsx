import { say } from "../words/say";

const DOTS = [0, 1, 2] as const;

/** How well a thing is known, in words and as filled dots: tapped, with a photo or scan, seen by a second person. */
export function GradeMark({ grade }: { readonly grade: 0 | 1 | 2 | 3 }) {
  return (
    <span class="grade">
      <svg viewBox="0 0 44 14" width="44" height="14" aria-hidden="true" focusable="false">
        {DOTS.map((dot) => (
          <circle key={dot} cx={7 + dot * 15} cy={7} r={5} fill={dot < grade ? "currentColor" : "none"} stroke="currentColor" stroke-width={2} />
        ))}
      </svg>{" "}
      {say(`grade.${grade}`)}
    </span>
  );
}
