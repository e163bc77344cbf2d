/** Stands for optional parts of the PDF library (drawing web pages) that are never used: keeps them out of the app. */
export default {};
