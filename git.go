package main

import (
	"bytes"
	"context"
	"crypto/sha1"
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"tamis/compiler"
	"tamis/compiler/load"
)

// What a book was is asked of the git that is installed, and nothing is read from its
// files by hand. A folder may come from anywhere, with settings of its own: what is asked
// without a word from the user has git run no program that those name.

// textsOf are the texts of a folder in a revision, by their paths below it, as the
// installed git hands them out.
func textsOf(ctx context.Context, dir, rev string) (map[string]*string, error) {
	commit, err := commitOf(ctx, dir, rev)
	if err != nil {
		return nil, err
	}
	return textsIn(ctx, dir, commit)
}

// commitOf is the commit that a revision names.
func commitOf(ctx context.Context, dir, rev string) (string, error) {
	said, err := git(ctx, dir, "rev-parse", "--verify", "--quiet", "--end-of-options", rev+"^{commit}")
	return strings.TrimSpace(string(said)), err
}

// textsIn is textsOf for a commit or a tree by its name in git. Whatever is kept there is
// read, with what `export-ignore` leaves out of an archive. The sizes are asked first.
func textsIn(ctx context.Context, dir, tree string) (map[string]*string, error) {
	listed, err := git(ctx, dir, "ls-tree", "-r", "-z", tree, "--", ".")
	if err != nil {
		return nil, err
	}
	var names, sums []string
	for _, e := range blobsOf(listed) {
		if e.plain && strings.HasSuffix(e.name, load.Ending) {
			names, sums = append(names, path.Clean(e.name)), append(sums, e.sum)
		}
	}
	texts, size := map[string]*string{}, 0
	if len(names) == 0 {
		return texts, nil
	}
	bad := func(err error) (map[string]*string, error) {
		return nil, fmt.Errorf("what git hands out of %q cannot be read: %w", tree, err)
	}
	said, err := gitFed(ctx, nil, strings.Join(sums, "\n")+"\n", dir, "cat-file", "--batch-check=%(objectsize)")
	if err != nil {
		return nil, err
	}
	sizes := strings.Split(strings.TrimSpace(string(said)), "\n")
	if len(sizes) != len(names) {
		return bad(fmt.Errorf("it has the sizes of %d files of %d", len(sizes), len(names)))
	}
	var wanted, of []string
	for i, name := range names {
		n, err := strconv.Atoi(sizes[i])
		if err != nil {
			return bad(fmt.Errorf("%s is not there", name))
		}
		if n > load.MaxSize || size+n > load.MaxText {
			continue
		}
		size += n
		wanted, of = append(wanted, sums[i]), append(of, name)
	}
	if len(of) == 0 {
		return texts, nil
	}
	raw, err := gitFed(ctx, nil, strings.Join(wanted, "\n")+"\n", dir, "cat-file", "--batch=%(objectsize)")
	if err != nil {
		return nil, err
	}
	for _, name := range of {
		head, rest, _ := bytes.Cut(raw, []byte("\n"))
		n, err := strconv.Atoi(string(head))
		if err != nil || n < 0 || n >= len(rest) {
			return bad(fmt.Errorf("%s is cut off", name))
		}
		text := string(rest[:n])
		texts[name], raw = &text, rest[n+1:]
	}
	return texts, nil
}

// bookIn is a book as git has it in a commit or a tree. One that was not there then, or in
// none (""), holds nothing.
func bookIn(ctx context.Context, root, tree string, opt compiler.Options) (*compiler.Result, error) {
	texts := map[string]*string{}
	if tree != "" {
		var err error
		if texts, err = textsIn(ctx, root, tree); err != nil {
			return nil, err
		}
	}
	if len(texts) == 0 {
		nothing := ""
		texts["nothing"+load.Ending] = &nothing
	}
	book, err := load.Texts(ctx, path.Base(root), texts)
	if err != nil {
		return nil, err
	}
	return compiler.Compile(ctx, book, opt), ctx.Err()
}

// blob is a text, a picture or a link that git keeps.
type blob struct {
	name, sum string
	plain     bool // a file, and no link
}

// blobsOf are the blobs that `ls-tree -r -z` lists.
func blobsOf(listed []byte) (out []blob) {
	for line := range strings.SplitSeq(string(listed), "\x00") {
		about, name, ok := strings.Cut(line, "\t") // 100644 blob 1f4c… soup.tamis
		if f := strings.Fields(about); ok && len(f) == 3 && f[1] == "blob" {
			out = append(out, blob{name, f[2], strings.HasPrefix(f[0], "100")})
		}
	}
	return out
}

// git asks the installed git something about a folder.
func git(ctx context.Context, dir string, args ...string) ([]byte, error) {
	return gitWith(ctx, nil, dir, args...)
}

// unasked keeps git from calling a server for what it does not have (GIT_NO_LAZY_FETCH).
var unasked = []string{"GIT_NO_LAZY_FETCH=1"}

func gitWith(ctx context.Context, env []string, dir string, args ...string) ([]byte, error) {
	return gitFed(ctx, env, "", dir, args...)
}

// gitFed is gitWith for a command that reads what it is asked.
func gitFed(ctx context.Context, env []string, in, dir string, args ...string) ([]byte, error) {
	var out, said bytes.Buffer
	cmd := exec.CommandContext(ctx, "git", append([]string{"-C", dir, "-c", "core.fsmonitor=false"}, args...)...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr, cmd.Env = strings.NewReader(in), &out, &said, append(os.Environ(), env...)
	err := cmd.Run()
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case errors.Is(err, exec.ErrNotFound):
		return nil, errors.New("git is not installed here, and it is git that knows what the book was")
	case err != nil && args[0] == "rev-parse" && said.Len() == 0:
		return nil, fmt.Errorf("git knows no revision %q", strings.TrimSuffix(args[len(args)-1], "^{commit}"))
	case err != nil && args[0] == "merge-tree" && said.Len() == 0:
		return nil, errConflict
	case err != nil:
		return nil, fmt.Errorf("git says: %s", strings.TrimSpace(said.String()))
	}
	return out.Bytes(), nil
}

// committed is how the sheets name a book that lies as git has it: the last commit that
// touched it, and its day. It is empty where git is not there, does not know the folder, or
// has another text or picture.
func committed(ctx context.Context, root string, pictures []string) string {
	listed, err := gitWith(ctx, unasked, root, "ls-tree", "-r", "-z", "HEAD")
	if err != nil || len(listed) == 0 {
		return ""
	}
	sums := map[string]string{} // of what git has, by path
	for _, e := range blobsOf(listed) {
		sums[e.name] = e.sum
	}
	lies := load.Scan(ctx, root, false)
	if lies.Narrow || ctx.Err() != nil {
		return ""
	}
	names := pictures
	for name := range lies.Files {
		names = append(names, name)
	}
	for name := range sums {
		if _, ok := lies.Files[name]; !ok && strings.HasSuffix(name, load.Ending) && !hidden(name) {
			return "" // it was taken away
		}
	}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
		if err != nil || !isBlob(data, sums[name]) && !isBlob(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")), sums[name]) {
			return ""
		}
	}
	said, err := gitWith(ctx, unasked, root, "log", "-1", "--no-show-signature", "--format=%H %cs", "--", ".")
	commit, day, ok := strings.Cut(strings.TrimSpace(string(said)), " ")
	date, badDay := time.Parse(time.DateOnly, day)
	if err != nil || !ok || badDay != nil || len(commit) < 8 {
		return ""
	}
	return commit[:8] + " of " + date.Format("2 January 2006")
}

// hidden tells whether a path has a part that is not read.
func hidden(name string) bool {
	for part := range strings.SplitSeq(name, "/") {
		if load.Hidden(part) {
			return true
		}
	}
	return false
}

// isBlob tells whether git keeps data under a sum (gitformat-pack, "blob").
func isBlob(data []byte, sum string) bool {
	var h hash.Hash
	switch len(sum) {
	case 2 * sha1.Size:
		h = sha1.New()
	case 2 * sha256.Size:
		h = sha256.New()
	default:
		return false
	}
	fmt.Fprintf(h, "blob %d\x00", len(data))
	h.Write(data)
	return fmt.Sprintf("%x", h.Sum(nil)) == sum
}
