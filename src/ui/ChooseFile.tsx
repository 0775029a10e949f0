interface ChooseFileProps {
  readonly label: string;
  /** whether it is the one next action of its screen */
  readonly next?: boolean;
  /** what the browser's dialog offers first; everything where it is not said */
  readonly accept?: string;
  readonly onFile: (file: File) => void;
}

/** A file input that looks and is hit like any button. */
export function ChooseFile({ label, next = false, accept, onFile }: ChooseFileProps) {
  return (
    <label className={next ? "button next" : "button"}>
      {label}
      <input
        type="file"
        className="hidden-label"
        accept={accept}
        onChange={(event) => {
          const file = event.target.files?.[0];
          // The same file can be chosen again after it was mended.
          event.target.value = "";
          if (file) onFile(file);
        }}
      />
    </label>
  );
}
