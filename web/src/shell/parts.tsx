// The margin and the band, once they are there.
import type { ComponentType } from "preact";

const bands = import.meta.glob<{ YearBand: ComponentType }>("../band/band.tsx", { eager: true });
const margins = import.meta.glob<{ Margin: ComponentType }>("../margin/margin.tsx", { eager: true });
const Nothing: ComponentType = () => null;

export const YearBand = Object.values(bands)[0]?.YearBand ?? Nothing;
export const Margin = Object.values(margins)[0]?.Margin ?? Nothing;
