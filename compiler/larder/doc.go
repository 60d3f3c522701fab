// Package larder holds what Tamis knows about ingredients before a writer says
// anything: density, weight of a piece, yield, counter of the shop, allergens,
// usual packs, plurals and other names. The facts stand in data/, one line
// each with its source; nothing is guessed, and what is not known is empty.
//
// It also decides when two names are one (Fold) and knows English plurals.
//
// Read item.go first, then table.go, where a name is looked up, and known.go, where it is
// known past words that change nothing; fold.go and plural.go say when two names are one.
package larder
