export * from "./garden";
export * from "./watching";
export * from "./when";
export * from "./light";
export * from "./trial";
export * from "./second";
export * from "./links";
export * from "./weather";
