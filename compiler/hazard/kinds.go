package hazard

import (
	"embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"tamis/compiler/larder"
)

//go:embed data
var embedded embed.FS

// kinds is the closed list of words by kind, folded.
var kinds = sync.OnceValue(func() map[string][]string {
	f, err := embedded.Open("data/kinds.csv")
	if err != nil {
		panic("hazard: " + err.Error())
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		panic("hazard: the built-in words cannot be read: " + err.Error()) // the tests read every row
	}
	out := map[string][]string{}
	for _, row := range rows[1:] {
		for _, w := range strings.Split(row[1], "/") {
			out[row[0]] = append(out[row[0]], larder.Fold(strings.TrimSpace(w)))
		}
	}
	return out
})

// isKind tells whether a name ends in, or is, one of the words of a kind: "brown
// onions" ends in onion. The names that the larder knows the thing by count too.
func isKind(kind, name string) bool {
	names := []string{larder.Fold(name)}
	if it, _, ok := larder.Builtin().FindPart(name); ok {
		names = append(names, larder.Fold(it.Name))
	}
	for _, n := range names {
		words := strings.Fields(n)
		for i := range words {
			words[i] = larder.Singular(words[i])
		}
		for _, k := range kinds()[kind] {
			kw := strings.Fields(k)
			for i := range kw {
				kw[i] = larder.Singular(kw[i])
			}
			if len(words) >= len(kw) && slices.Equal(words[len(words)-len(kw):], kw) {
				return true
			}
			if len(kw) == 1 && kind != "keeps" && kind != "sweet" && kind != "oil" && slices.Contains(words, kw[0]) {
				return true
			}
		}
	}
	return false
}

// IsFat tells whether a name is of fat, oil or what else keeps by itself.
func IsFat(name string) bool { return isKind("keeps", name) || isKind("oil", name) }
