// Command bigbook writes a book drawn by testdata/bigbook into a folder, to
// time a command on:
//
//	go run ./.ci/bigbook -n 4000 DIR
//	go run ./.ci/bigbook -lines 8000 DIR
//	go run ./.ci/bigbook -chain 1000 DIR
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"tamis/testdata/bigbook"
)

func main() {
	var b bigbook.Book
	flag.IntVar(&b.Recipes, "n", 1000, "how many recipes")
	flag.Uint64Var(&b.Seed, "seed", 1, "another number draws another book")
	flag.IntVar(&b.Chapter, "chapter", 0, "how many recipes in a folder (100)")
	flag.IntVar(&b.PerFile, "per-file", 0, "how many recipes in a file (1)")
	lines := flag.Int("lines", 0, "instead, one recipe that gathers so many things")
	chain := flag.Int("chain", 0, "instead, a dish on so many bases, each made of the next")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "bigbook: name the folder to write")
		os.Exit(2)
	}
	files := map[string]string{}
	switch {
	case *lines > 0:
		files["lines.tamis"] = bigbook.Lines(*lines)
	case *chain > 0:
		files["chain.tamis"] = bigbook.Chain(*chain)
	default:
		files = b.Files()
	}
	size := 0
	for name, text := range files {
		size += len(text)
		p := filepath.Join(flag.Arg(0), filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(p), 0o755); err == nil {
			err = os.WriteFile(p, []byte(text), 0o644)
			if err == nil {
				continue
			}
		}
		fmt.Fprintln(os.Stderr, "bigbook: cannot write", p)
		os.Exit(1)
	}
	fmt.Printf("%d files, %.1f MB\n", len(files), float64(size)/1e6)
}
