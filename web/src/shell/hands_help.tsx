// What hands and keys do, for who looks it up.
const hands: [string, string][] = [
  ["Drag the paper", "moves the view; two fingers or the wheel zoom"],
  ["Drag with Space or the middle button held", "moves the view while you draw"],
  ["Touch a thing", "selects it; touch the paper beside it to let it go"],
  ["Drag the blue grip", "moves the thing; or touch the grip, then where it is to stand"],
  ["Draw", "opens what can be drawn; then drag it on the paper, or touch its corners"],
  ["Alt while you draw or move", "goes freely, and not to lines nearby; on a touch screen the word To lines"],
  ["Section", "cuts the garden along a line that you drag, or touch from end to end"],
  ["Touch a dotted figure", "types another"],
];
const keys: [string, string][] = [
  ["F6, Shift F6", "the next part of the page, or the one before"],
  ["a letter", "the next word there that begins with it"],
  ["arrows, Enter", "to the nearest thing, and select it"],
  ["M", "moves it: arrows 0.1 m, with Shift 1 m, with Alt 0.01 m, or type; Enter sets it down"],
  ["D", "draws something new: a letter for what it is, arrows for the cross, Enter sets a corner"],
  ["S", "where its shadow ends: arrows put the end where it really is, and Enter turns north by it"],
  ["C", "cuts a section: arrows move the cross, Enter sets A, then B"],
  ["+, −, 0", "nearer, further, the whole"],
  ["Esc", "one step back"],
  ["Ctrl Z, Ctrl Y", "undo, redo"],
];

function Rows({ of, title }: { of: [string, string][]; title: string }) {
  return (
    <>
      <h2>{title}</h2>
      <dl>
        {of.map(([what, does]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

export function HandsHelp() {
  return (
    <div class="hands-help" tabIndex={-1} ref={(host) => host?.focus()}>
      <Rows title="By hand" of={hands} />
      <Rows title="By keys" of={keys} />
    </div>
  );
}
