/**
 * The font of the drawing, asked for as soon as there is a script. It has a file of its own in the build: a browser that is
 * being watched notes which script asked, and for that reads all of that script a second time.
 */
export const drawingFont = document.fonts.load('14px Drawing', 'AØ½');
