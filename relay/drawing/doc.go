// Package drawing holds pictures as lists of simple shapes, and writes them as SVG or as
// pixels: what an editor opens, a page shows and a picture file holds is one list.
//
// Lengths are pixels of the drawing. A paint is a colour such as "#12161c", or the name of
// one of the few patterns that Ground knows.
package drawing
