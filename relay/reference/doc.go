// Package reference keeps an index of positions: which games reached a position,
// what they went on with and how they ended.
package reference
