export * from "./view";
export * from "./shape";
export * from "./lengths";
export * from "./sketch";
