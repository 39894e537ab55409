// The margin and the band, as the page has them.
export { YearBand } from "../band/band";
export { Margin } from "../margin/margin";
