/** An ink belongs to the thing everywhere: the first five takers have one. */
export const taker_inks = ["#8e894e", "#68154d", "#6769bf", "#3c8f8c", "#835d63"] as const;
