import { say } from "../words/say";

interface Props {
  readonly value: string;
  readonly typed: (meter: string) => void;
}

/** What the machine's meter shows, where it has one: nobody has to fill it in. */
export function MeterField({ value, typed }: Props) {
  return (
    <label class="meter">
      {say("meter.ask")}
      <input autocomplete="off" maxLength={40} value={value} onInput={(event) => typed(event.currentTarget.value)} />
    </label>
  );
}
