export { YearBand } from "./band";
export { month_spans } from "./axes";
export { InkBar, PrintLarge } from "./print_large";
export { ink_colour } from "./hatches";
export { moment_says, print_shown } from "./chosen";
export { print_large } from "./words";
