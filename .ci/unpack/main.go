// Command unpack writes the texts of a folder of txtar files to disk, a folder
// for each archive, so that other programs can look at them.
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: unpack DIR OUT")
		os.Exit(2)
	}
	files, err := filepath.Glob(filepath.Join(os.Args[1], "*.txtar"))
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("no txtar file in %s", os.Args[1])
	}
	for _, f := range files {
		if err = unpack(f, os.Args[2]); err != nil {
			break
		}
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func unpack(file, out string) error {
	a, err := txtar.ParseFile(file)
	if err != nil {
		return err
	}
	dir := filepath.Join(out, strings.TrimSuffix(filepath.Base(file), ".txtar"))
	for _, f := range a.Files {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
