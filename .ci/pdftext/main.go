// Command pdftext looks for all that the JSON of a document says in the text
// that pdftotext takes out of its PDF, field by field and in the order it is
// written, rows of tables in order: what a search, a copy or a screen reader meets.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"tamis/render/fonts"
	"tamis/render/runes"
	"tamis/testdata/fixture"
)

func main() {
	files, _ := filepath.Glob(filepath.Join(os.Args[1], "*", "*.json"))
	if len(files) == 0 {
		fail("no documents in %s", os.Args[1])
	}
	for _, name := range files {
		pdf := strings.TrimSuffix(name, ".json") + ".pdf"
		text, err := os.ReadFile(name)
		if err != nil {
			fail("%v", err)
		}
		var kind struct {
			Bound bool `json:"bound"`
		}
		if err := json.Unmarshal(text, &kind); err != nil {
			fail("%s: %v", name, err)
		}
		if kind.Bound { // it says pages, which data has not: bookpages reads it
			continue
		}
		doc, err := fixture.FromJSON(text)
		if err != nil {
			fail("%s: %v", name, err)
		}
		// -raw keeps the order of the file, which readers aloud follow too
		out, err := exec.Command("pdftotext", "-raw", pdf, "-").Output()
		if err != nil {
			fail("%s: %v", pdf, err)
		}
		fields := 0
		for _, s := range doc.Sheets { // a short recipe may stand below another: the order is that of each sheet
			var list []fixture.Field
			for _, f := range s.Fields {
				f.Text = runes.Replace(f.Text, fonts.Set{}.Has, func(rune) {})
				list = append(list, f)
			}
			if err := fixture.FollowRows(string(out), list); err != nil && !(s.Kind == "wall" && closeRows(string(out), list)) {
				fail("%s, sheet %s: %v", pdf, s.ID, err)
			}
			fields += len(list)
		}
		fmt.Printf("ok %s, %d fields in order\n", pdf, fields)
	}
}

// closeRows tells whether all of a wall sheet is in a text whose rows were put together, or
// whose words are fewer, to save a leaf (compiler/sheets/build holds them against the rows):
// what each field begins with, and of what begins later than its row the minutes.
func closeRows(text string, list []fixture.Field) bool {
	all := strings.Join(strings.Fields(text), "")
	for _, f := range list {
		words := strings.Fields(f.Text)
		if len(words) == 0 || f.End { // in the fewest rows one sees at the next when hands are free again
			continue
		}
		want := words[0]
		if _, minutes, ok := strings.Cut(want, ":"); ok && len(want) == len("16:40") && !strings.Contains(all, want) {
			want = ":" + minutes
		}
		if !strings.Contains(all, want) {
			fmt.Fprintf(os.Stderr, "%q of %q is missing\n", want, f.Text)
			return false
		}
	}
	return true
}

func fail(format string, args ...any) {
	fmt.Fprintf(os.Stderr, format+"\n", args...)
	os.Exit(1)
}
