package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// bench holds the tests, built once with all changes woven in, and knows which
// test comes by which change.
type bench struct {
	dir   string
	limit int // processor seconds of a run
	muts  map[int]mutant
	tests []test
	comes map[int][]int // change -> indices of the tests that come by it
}

// slow are the packages whose tests are run, and asked, one by one.
var slow = regexp.MustCompile(`^[^/]+$|/compiler$|/check$|/planner$|/pdf$`)

// test is one test function of a package, or all of them.
type test struct {
	pkg, dir, bin, name string
	cost                time.Duration // of the processor
}

// newBench weaves the changes in, leaves out what does not compile, builds the
// tests of all packages, and runs each test by itself and unchanged: it must
// pass, and notes the changes it comes by.
func newBench(muts []mutant, limit int, wide bool) (*bench, error) {
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return nil, err
	}
	b := &bench{dir: dir, limit: limit, muts: map[int]mutant{}, comes: map[int][]int{}}
	for i, m := range muts {
		b.muts[i+1] = m
	}
	if err := b.build(); err != nil {
		return b, err
	}
	return b, b.learn(wide)
}

func (b *bench) close() { os.RemoveAll(b.dir) }

func (b *bench) now() string     { return filepath.Join(b.dir, "now") }
func (b *bench) overlay() string { return filepath.Join(b.dir, "overlay.json") }
func (b *bench) reached() string { return filepath.Join(b.dir, "reached") }

var wrong = regexp.MustCompile(`mutant_(\d+)\.go:\d+`)

// build leaves in b.muts what compiles.
func (b *bench) build() error {
	for {
		over, lost, err := weave(b.dir, b.muts, b.now(), b.reached())
		if err != nil {
			return err
		}
		for _, id := range lost {
			delete(b.muts, id)
		}
		text, err := json.Marshal(map[string]map[string]string{"Replace": over})
		if err != nil {
			return err
		}
		if err := os.WriteFile(b.overlay(), text, 0o600); err != nil {
			return err
		}
		out, err := exec.Command("go", "build", "-gcflags=-e", "-overlay", b.overlay(), "./...").CombinedOutput()
		if err == nil {
			break
		}
		found := wrong.FindAllStringSubmatch(string(out), -1)
		if len(found) == 0 {
			return fmt.Errorf("the woven sources do not compile: %s", out)
		}
		for _, f := range found {
			id, _ := strconv.Atoi(f[1])
			delete(b.muts, id)
		}
	}
	return nil
}

// learn runs every test unchanged.
func (b *bench) learn(wide bool) error {
	out, err := exec.Command("go", "list", "-json=ImportPath,Dir,TestGoFiles,XTestGoFiles", "./...").Output()
	if err != nil {
		return fmt.Errorf("go list: %w", err)
	}
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var p struct {
			ImportPath, Dir           string
			TestGoFiles, XTestGoFiles []string
		}
		if err := d.Decode(&p); err != nil {
			return err
		}
		if len(p.TestGoFiles)+len(p.XTestGoFiles) == 0 || !wide && !b.changes(p.ImportPath) {
			continue
		}
		t := test{pkg: p.ImportPath, dir: p.Dir, bin: filepath.Join(b.dir, strings.ReplaceAll(p.ImportPath, "/", "_")+".test")}
		if out, err := exec.Command("go", "test", "-c", "-vet=off", "-overlay", b.overlay(), "-o", t.bin, p.ImportPath).CombinedOutput(); err != nil {
			return fmt.Errorf("the tests of %s do not compile: %s", t.pkg, out)
		}
		if whole, err := os.ReadFile(t.bin); err != nil || !bytes.Contains(whole, []byte(b.now())) {
			continue // nothing that is changed is linked in
		}
		list := exec.Command(t.bin, "-test.list", ".")
		list.Dir = t.dir
		names, err := list.Output()
		if err != nil {
			return fmt.Errorf("%s: %w", t.pkg, err)
		}
		tests := slices.DeleteFunc(strings.Fields(string(names)), func(s string) bool { return strings.HasPrefix(s, "Benchmark") })
		if !slow.MatchString(t.pkg) {
			tests = []string{".*"}
		}
		for _, t.name = range tests {
			if err := b.come(t, wide); err != nil {
				return err
			}
		}
	}
	return nil
}

// changes tells whether something of a package is changed.
func (b *bench) changes(pkg string) bool {
	for _, m := range b.muts {
		if strings.HasSuffix(pkg, "/"+filepath.ToSlash(filepath.Dir(m.file))) {
			return true
		}
	}
	return false
}

// come runs one test unchanged and notes what it comes by.
func (b *bench) come(t test, wide bool) error {
	os.Remove(b.reached())
	if err := os.WriteFile(b.now(), []byte("none"), 0o600); err != nil {
		return err
	}
	cost, out, err := b.run(t, t.name, 3600)
	if err != nil {
		return fmt.Errorf("%s fails on the unchanged sources of %s: %w\n%s", t.name, t.pkg, err, out)
	}
	t.cost = cost
	b.tests = append(b.tests, t)
	seen, _ := os.ReadFile(b.reached())
	for _, f := range strings.Fields(string(seen)) {
		id, _ := strconv.Atoi(f)
		own := filepath.ToSlash(filepath.Dir(b.muts[id].file))
		if at := len(b.tests) - 1; (wide || strings.HasSuffix(t.pkg, "/"+own)) && !slices.Contains(b.comes[id], at) {
			b.comes[id] = append(b.comes[id], at)
		}
	}
	return nil
}

// run runs the tests of a pattern in the package of t. The limit holds for each
// process by itself: what hangs is ended, and so is what takes all memory.
func (b *bench) run(t test, pattern string, limit int) (time.Duration, []byte, error) {
	cmd := exec.Command("sh", "-c", `ulimit -t "$1"; ulimit -v 12000000; export TAMIS_SUMS=1; exec "$2" -test.failfast -test.run "$3"`,
		"sh", strconv.Itoa(limit), t.bin, "^("+pattern+")$")
	cmd.Dir = t.dir
	out, err := cmd.CombinedOutput()
	return cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), out, err
}

// group is tests of one package that are run together.
type group struct {
	of    test
	names []string
	cost  time.Duration
}

// try tells whether a test notices a change, which, and how many come by it.
// Quick tests are asked first, together; slow ones one by one.
func (b *bench) try(id int) (by string, dead bool) {
	if err := os.WriteFile(b.now(), []byte(strconv.Itoa(id)), 0o600); err != nil {
		return err.Error(), false
	}
	var groups []group
	for _, i := range b.comes[id] {
		t := b.tests[i]
		same := func(g group) bool { return g.of.bin == t.bin && g.cost < time.Second }
		if at := slices.IndexFunc(groups, same); at >= 0 && t.cost < time.Second/2 {
			groups[at].names = append(groups[at].names, t.name)
			groups[at].cost += t.cost
			continue
		}
		groups = append(groups, group{t, []string{t.name}, t.cost})
	}
	slices.SortStableFunc(groups, func(x, y group) int { return int(x.cost - y.cost) })
	for _, g := range groups {
		limit := min(b.limit, 20+5*int(g.cost/time.Second))
		if _, _, err := b.run(g.of, strings.Join(g.names, "|"), limit); err != nil {
			return g.of.pkg, true
		}
	}
	return fmt.Sprintf("%d tests come by", len(b.comes[id])), false
}
