// Package larder holds what Tamis knows about ingredients before a writer says
// anything: density, weight of a piece, yield, counter of the shop, allergens,
// usual packs, plurals and other names. The facts stand in data/, one line
// each with its source; nothing is guessed, and what is not known is empty.
//
// It also decides when two names are one (Fold) and knows English plurals.
package larder
