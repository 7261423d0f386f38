/** CSS pixels in a mm of paper: a little above 96 dpi, so that lettering of 1.8 mm reads as 11 px type. */
export const pxPerPaperMm = 4.2;
