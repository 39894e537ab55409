export * from "./view";
export * from "./shape";
export * from "./lengths";
export * from "./sketch";
export * from "./gaps";
export * from "./snaps";
export * from "./tape";
export * from "./transform";
