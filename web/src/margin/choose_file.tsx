// A file of this machine, chosen; and what is wrong with one, line by line.
import "./choose_file.css";
import type { Problem } from "../api";

interface ChooseFileProps {
  words: string;
  accept: string;
  disabled?: boolean;
  take: (file: File) => void;
}

export function ChooseFile({ words, accept, disabled = false, take }: ChooseFileProps) {
  return (
    <label class={disabled ? "bring-in is-off" : "bring-in"}>
      <input
        type="file"
        accept={accept}
        disabled={disabled}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = "";
          if (file !== undefined) take(file);
        }}
      />
      <span>{words}</span>
    </label>
  );
}

/** "the document:41:7" as "line 41". */
export function line_says(where: string): string {
  const line = /:(\d+)(?::\d+)?$/.exec(where)?.[1];
  return line === undefined ? where : `line ${line}`;
}

export function ProblemList({ problems }: { problems: readonly Problem[] }) {
  return (
    <ol class="problems">
      {problems.map((one, i) => (
        <li key={i}>
          <span class="problem-where">{line_says(one.where)}</span>
          <span>{one.message} <em>{one.hint}</em></span>
        </li>
      ))}
    </ol>
  );
}
