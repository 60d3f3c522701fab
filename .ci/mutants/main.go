// Command mutants asks whether the tests would notice. It changes one small
// thing in a package (a number, a comparison, a rounding, a sign; a statement
// or a condition left out), runs the tests that come by it, and says whether
// one failed. The tree itself is never changed: changed files are laid over it
// (go test -overlay). Read weave.go first.
//
//	go run ./.ci/mutants                        the named changes, and 40 drawn by chance
//	go run ./.ci/mutants -n 200 -seed 7 compiler/demand render/chart
//
// What survives is printed, unless survivors.txt says why it may.
package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
)

var folders = []string{
	"lang/quantity", "compiler/resolve", "compiler/demand", "compiler/buying", "compiler/events", "compiler/sheets", "compiler/sheets/build", "compiler/sheets/chart",
	"compiler/timeline", "compiler/timeline/advice", "compiler/timeline/answer", "compiler/timeline/attempt", "compiler/timeline/planner", "compiler/timeline/problem", "compiler/timeline/washing",
	"render/bidi", "render/chart", "render/data", "render/draw", "render/fonts", "render/html", "render/page", "render/pdf", "render/plantext", "render/text",
}

func main() {
	n := flag.Int("n", 40, "changes drawn by chance")
	seed := flag.Uint64("seed", 1, "what they are drawn by")
	named := flag.Bool("named", true, "the named changes too (named.txt)")
	least := flag.Int("least", 90, "per cent that must be killed")
	limit := flag.Int("limit", 120, "processor time a run of tests may take, in seconds")
	wide := flag.Bool("wide", true, "ask the tests of all packages, not only its own")
	list := flag.Bool("list", false, "print the changes that would be tried")
	flag.Parse()
	if err := run(*n, *seed, *named, *least, *limit, *wide, *list, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(n int, seed uint64, named bool, least, limit int, wide, list bool, in []string) error {
	var tried []mutant
	if named {
		m, err := readNamed(filepath.Join(".ci", "mutants", "named.txt"))
		if err != nil {
			return err
		}
		tried = m
	}
	if len(in) == 0 {
		in = folders
	}
	var all []mutant
	for _, dir := range in {
		m, err := mutantsOf(dir)
		if err != nil {
			return err
		}
		all = append(all, m...)
	}
	r := rand.New(rand.NewPCG(seed, 1))
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	first := len(tried)
	tried = append(tried, all[:min(len(all), n+n/2+20)]...) // more than asked for: some do not compile
	allowed, err := readSurvivors(filepath.Join(".ci", "mutants", "survivors.txt"))
	if err != nil {
		return err
	}
	if list {
		for _, m := range tried[:min(first+n, len(tried))] {
			fmt.Println(m)
		}
		return nil
	}
	b, err := newBench(tried, limit, wide)
	if err != nil {
		return err
	}
	defer b.close()
	killed, lived, excused, lost := 0, 0, 0, 0
	for i, m := range tried {
		if _, whole := b.muts[i+1]; !whole { // it does not compile: another takes its place
			if m.name != "" {
				lost++
				fmt.Printf("broken    %s\n", m)
			}
			continue
		}
		if i >= first {
			if n--; n < 0 {
				break
			}
		}
		by, dead := b.try(i + 1)
		why, may := allowed[m.key()]
		switch {
		case dead:
			killed++
			fmt.Printf("killed    %s  (%s)\n", m, by)
		case may:
			excused++
			fmt.Printf("excused   %s  (%s)\n", m, why)
		default:
			lived++
			fmt.Printf("SURVIVED  %s  (%s)\n          %s\n", m, by, m.key())
			if m.name != "" {
				lost++
			}
		}
	}
	share := 100
	if killed+lived > 0 {
		share = 100 * killed / (killed + lived)
	}
	fmt.Printf("%d killed, %d survived, %d may: %d per cent\n", killed, lived, excused, share)
	if share < least {
		return fmt.Errorf("fewer than %d per cent were killed", least)
	}
	if lost > 0 {
		return fmt.Errorf("%d of the named changes survived or cannot be made", lost)
	}
	return nil
}

// readRows reads a file of rows `a | b | c …`, each with so many fields; what
// begins with # is for people.
func readRows(path string, fields int) ([][]string, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var out [][]string
	for n, l := range strings.Split(string(text), "\n") {
		if l = strings.TrimSpace(l); l == "" || strings.HasPrefix(l, "#") {
			continue
		}
		row := strings.Split(l, " ¦ ")
		if len(row) != fields {
			return nil, fmt.Errorf("%s:%d: %d fields, not %d", path, n+1, len(row), fields)
		}
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
		}
		out = append(out, row)
	}
	return out, nil
}

// readNamed reads the named changes: file, what is there (once), what stands
// there instead, and what it is about.
func readNamed(path string) ([]mutant, error) {
	rows, err := readRows(path, 4)
	if err != nil {
		return nil, err
	}
	var out []mutant
	for _, r := range rows {
		text, err := os.ReadFile(r[0])
		if err != nil {
			return nil, err
		}
		if n := strings.Count(string(text), r[1]); n != 1 {
			return nil, fmt.Errorf("%s: %q stands there %d times, not once: mend the row %q", r[0], r[1], n, r[3])
		}
		at := strings.Index(string(text), r[1])
		out = append(out, mutant{file: r[0], text: string(text), from: at, to: at + len(r[1]), with: r[2], name: r[3]})
	}
	return out, nil
}

// readSurvivors reads what may survive: the key of a change as it is printed,
// and why.
func readSurvivors(path string) (map[string]string, error) {
	rows, err := readRows(path, 4)
	if err != nil {
		return nil, err
	}
	out := map[string]string{}
	for _, r := range rows {
		out[strings.Join(r[:3], " ¦ ")] = r[3]
	}
	return out, nil
}
