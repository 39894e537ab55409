export * from "./laid";
export * from "./pen";
export * from "./sheet_view";
export * from "./moving";
export * from "./choosing";
export * from "./kinds";
export * from "./drawing";
export { grip_tapped, take_hands } from "./pointer";
export { page_key, sheet_key } from "./keys";
