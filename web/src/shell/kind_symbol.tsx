// A small drawing of a kind of thing, in the manner of the sheet.
const symbols: Record<string, string> = {
  boundary: "M3 4L17 3L18 16L4 17Z",
  area: "M3 5C7 2 14 3 17 6C19 11 16 17 10 17C4 17 2 10 3 5ZM7 9h0.5M12 8h0.5M9 13h0.5M13 13h0.5",
  patch: "M4 6C8 3 14 4 16 8C18 13 13 17 8 16C3 15 2 9 4 6ZM6 8L9 5M6 12L13 5M8 15L16 8M13 15L16 12",
  service: "M2 13H6M8 13H12M14 13H18M10 13V5M7 8L10 5L13 8",
  bed: "M3 5H17V15H3ZM5 7H15V13H5Z",
  path: "M4 18C4 10 9 10 9 2M11 18C11 12 15 10 15 2M8 12h0.5M10 7h0.5",
  wall: "M2 8H18V12H2ZM4 12L8 8M8 12L12 8M12 12L16 8",
  fence: "M2 10H18M4 7V13M10 7V13M16 7V13",
  hedge: "M2 8C4 6 5 9 7 7C9 6 10 9 12 7C14 6 15 9 18 7M2 13C4 11 5 14 7 12C9 11 10 14 12 12C14 11 15 14 18 12",
  building: "M3 4H17V16H3ZM3 10H17",
  tree: "M10 3A7 7 0 1 1 9.9 3ZM10 8V12M8 10H12",
  support: "M5 17L10 3L15 17M7 12H13",
  seat: "M3 12H17V16H3ZM6 10L10 2L14 10",
  tank: "M10 4A6 6 0 1 1 9.9 4ZM6 10C8 8 9 12 11 10C12 9 13 9 14 10",
  object: "M5 5H15V15H5ZM5 5L15 15M15 5L5 15",
  plant: "M10 17V9M10 11C6 11 5 8 5 5C9 5 10 8 10 11M10 9C14 9 15 6 15 3C11 3 10 6 10 9",
  container: "M5 6H15L13.5 17H6.5Z",
  cover: "M3 15C3 3 17 3 17 15ZM10 6V15",
  gate: "M2 15V9M18 15V9M2 12H6M14 12H18M6 12A8 8 0 0 1 14 4V12",
  view: "M2 10C6 4 14 4 18 10C14 16 6 16 2 10ZM10 7.5A2.5 2.5 0 1 1 9.9 7.5",
  hide: "M2 10C6 4 14 4 18 10C14 16 6 16 2 10ZM10 7.5A2.5 2.5 0 1 1 9.9 7.5M4 18L16 2",
  watch: "M2 12C6 6 14 6 18 12C14 18 6 18 2 12ZM10 9.5A2.5 2.5 0 1 1 9.9 9.5M10 2V5M4 3L6 6M16 3L14 6",
  point: "M10 3V17M3 10H17M10 7A3 3 0 1 1 9.9 7",
};

export function KindSymbol({ of }: { of: string }) {
  return (
    <svg viewBox="0 0 20 20" width="22" height="22" aria-hidden="true" focusable="false">
      <path class="kind-symbol" d={symbols[of] ?? symbols["object"] ?? ""} />
    </svg>
  );
}
