export * from "./view";
export * from "./shape";
export * from "./lengths";
export * from "./figures";
export * from "./mercator";
export * from "./plot";
export * from "./sketch";
