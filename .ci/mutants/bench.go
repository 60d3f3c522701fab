package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

type verdict int

const (
	stillborn verdict = iota // does not compile
	dead                     // a test failed, or took too long
	alive                    // no test noticed
)

// bench runs tests over a changed file.
type bench struct {
	dir     string
	limit   int                 // processor seconds of a run
	viewers map[string][]string // package -> packages whose tests could see it, itself first
}

func newBench(limit int, wide bool) (*bench, error) {
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return nil, err
	}
	b := &bench{dir: dir, limit: limit, viewers: map[string][]string{}}
	out, err := exec.Command("go", "list", "-json=ImportPath,Dir,Deps,TestImports,XTestImports,TestGoFiles,XTestGoFiles", "./...").Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	type pkg struct {
		ImportPath, Dir                                            string
		Deps, TestImports, XTestImports, TestGoFiles, XTestGoFiles []string
	}
	var all []pkg
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var p pkg
		if err := d.Decode(&p); err != nil {
			return nil, err
		}
		all = append(all, p)
	}
	deps := map[string][]string{}
	for _, p := range all {
		deps[p.ImportPath] = p.Deps
	}
	for _, of := range all {
		if len(of.TestGoFiles)+len(of.XTestGoFiles) > 0 {
			b.viewers[of.ImportPath] = append(b.viewers[of.ImportPath], of.ImportPath)
		}
	}
	if !wide {
		return b, nil
	}
	for _, p := range all { // in the order of go list, the module's root first
		if len(p.TestGoFiles)+len(p.XTestGoFiles) == 0 {
			continue
		}
		sees := slices.Clone(p.Deps)
		for _, imp := range slices.Concat(p.TestImports, p.XTestImports) {
			sees = append(append(sees, imp), deps[imp]...)
		}
		for _, of := range all {
			if of.ImportPath != p.ImportPath && slices.Contains(sees, of.ImportPath) {
				b.viewers[of.ImportPath] = append(b.viewers[of.ImportPath], p.ImportPath)
			}
		}
	}
	for of, list := range b.viewers { // the slow root last, what is nearest first
		slices.SortStableFunc(list, func(x, y string) int { return rank(of, x) - rank(of, y) })
	}
	return b, nil
}

// rank is when the tests of a package are asked: its own, then those of the
// whole compiler and the examples, then the others, then the commands'.
func rank(of, p string) int {
	switch {
	case of == p:
		return 0
	case strings.HasSuffix(p, "/compiler"):
		return 1
	case strings.HasSuffix(p, "/examples"):
		return 2
	case !strings.Contains(p, "/"):
		return 4
	}
	return 3
}

func (b *bench) close() { os.RemoveAll(b.dir) }

// try tells what became of a change, and by which package.
func (b *bench) try(m mutant) (string, verdict) {
	whole, err := filepath.Abs(m.file)
	if err != nil {
		return err.Error(), stillborn
	}
	changed, overlay := filepath.Join(b.dir, "changed.go"), filepath.Join(b.dir, "overlay.json")
	over, err := json.Marshal(map[string]map[string]string{"Replace": {whole: changed}})
	if err != nil {
		return err.Error(), stillborn
	}
	if os.WriteFile(changed, []byte(m.mutated()), 0o600) != nil || os.WriteFile(overlay, over, 0o600) != nil {
		return "the change cannot be written", stillborn
	}
	dir := "./" + filepath.ToSlash(filepath.Dir(m.file))
	if out, err := exec.Command("go", "build", "-overlay", overlay, dir).CombinedOutput(); err != nil {
		return string(out), stillborn
	}
	name, err := exec.Command("go", "list", dir).Output()
	if err != nil {
		return err.Error(), stillborn
	}
	for _, p := range b.viewers[strings.TrimSpace(string(name))] {
		// The limit holds for each process by itself: what hangs is ended, and counts as noticed.
		cmd := exec.Command("sh", "-c", `ulimit -t "$1"; export TAMIS_SUMS=1; exec go test -vet=off -failfast -overlay "$2" "$3"`, "sh", strconv.Itoa(b.limit), overlay, p)
		if cmd.Run() != nil {
			return p, dead
		}
	}
	return "", alive
}
