package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The tutorial is a recorded script: what stands in its blocks is done, in one folder and
// in order, and must come out as it is told there.
//
//	console   commands behind "$ ", and what they print; … stands for anything
//	edit FILE lines that go (-) and lines that come (+), typed into an editor that speaks to
//	          the language server, and saved
//	told      what the editor is told of the text then: each line is in a finding; "nothing"
//	          of a text with no errors, warnings or questions
//	preview   words that the sheets of `tamis preview .`, which runs all the while, come to hold;
//	          behind "found: " words of a finding
func TestTutorial(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("there is no git here")
	}
	if _, err := exec.LookPath("sh"); err != nil {
		t.Skip("there is no shell here")
	}
	page, err := os.ReadFile(filepath.Join("spec", "tutorial.md"))
	require.NoError(t, err)
	d := &writing{T: t, dir: t.TempDir(), texts: map[string]string{}}
	t.Cleanup(d.close)
	home := t.TempDir()
	d.env = append(os.Environ(), "HOME="+home, "GIT_CONFIG_NOSYSTEM=1", "NO_COLOR=1",
		"GIT_AUTHOR_NAME=Nell", "GIT_AUTHOR_EMAIL=nell@example.org", "GIT_COMMITTER_NAME=Nell", "GIT_COMMITTER_EMAIL=nell@example.org",
		"GIT_CONFIG_COUNT=1", "GIT_CONFIG_KEY_0=user.name", "GIT_CONFIG_VALUE_0=Nell",
		"GIT_AUTHOR_DATE=2027-04-20T10:00:00Z", "GIT_COMMITTER_DATE=2027-04-20T10:00:00Z")
	done := map[string]int{}
	blocks := regexp.MustCompile("(?ms)^```(\\w+) ?([^\\n]*)\\n(.*?)^```$").FindAllStringSubmatch(string(page), -1)
	for _, b := range blocks {
		kind, of, body := b[1], b[2], b[3]
		done[kind]++
		switch kind {
		case "console":
			d.console(body)
		case "edit":
			d.edit(of, body)
		case "told":
			d.told(body)
		case "preview":
			d.preview(body)
		default:
			require.Fail(t, "a block that nothing is done with", kind)
		}
	}
	for _, kind := range []string{"console", "edit", "told", "preview"} {
		require.Positive(t, done[kind], kind)
	}
	for _, command := range []string{"new", "diff", "log", "build", "check . --merge"} {
		require.Contains(t, string(page), "$ tamis "+command)
	}
}

// writing is where the tutorial is tried: a folder, an editor and a browser.
type writing struct {
	*testing.T
	dir   string
	env   []string
	texts map[string]string // as the editor has them

	editor  *exec.Cmd
	to      io.WriteCloser
	from    *bufio.Reader
	version int
	found   []string // in the text that was edited last, "severity: message"

	browser *exec.Cmd
	page    string
}

func (d *writing) command(name string, args ...string) *exec.Cmd {
	cmd := exec.Command(name, args...)
	cmd.Dir, cmd.Env = d.dir, d.env
	return cmd
}

func (d *writing) close() {
	for _, c := range []*exec.Cmd{d.editor, d.browser} {
		if c != nil {
			_ = c.Process.Kill()
			_ = c.Wait()
		}
	}
}

// console carries out commands and holds them to what they print.
func (d *writing) console(body string) {
	d.Helper()
	for part := range strings.SplitSeq("\n"+strings.TrimSuffix(body, "\n"), "\n$ ") {
		if part == "" {
			continue
		}
		command, want, _ := strings.Cut(part, "\n")
		out, _ := d.command("sh", "-c", command).CombinedOutput()
		got := strings.TrimRight(strings.ReplaceAll(string(out), d.dir, "."), "\n")
		pattern := strings.ReplaceAll(regexp.QuoteMeta(strings.TrimRight(want, "\n")), "…", ".*?")
		require.Regexp(d, "(?s)^"+pattern+"$", got, "$ %s", command)
	}
}

// edit types into a file as an editor does, and saves it.
func (d *writing) edit(name, body string) {
	d.Helper()
	file := filepath.Join(d.dir, name)
	raw, err := os.ReadFile(file)
	require.NoError(d, err)
	text := string(raw)
	var old, now strings.Builder
	for line := range strings.Lines(body) {
		switch line[0] {
		case '-':
			old.WriteString(line[1:])
		case '+':
			now.WriteString(line[1:])
		default:
			old.WriteString(line[1:])
			now.WriteString(line[1:])
		}
	}
	require.Equal(d, 1, strings.Count(text, old.String()), "%q in %s", old.String(), text)
	address := (&url.URL{Scheme: "file", Path: "/" + strings.TrimPrefix(filepath.ToSlash(file), "/")}).String()
	d.version++
	if d.editor == nil {
		d.startEditor()
	}
	d.send("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": address, "languageId": "tamis", "version": d.version, "text": text}})
	at := strings.Index(text, old.String())
	line := strings.Count(text[:at], "\n")
	d.version++
	d.send("textDocument/didChange", map[string]any{
		"textDocument": map[string]any{"uri": address, "version": d.version},
		"contentChanges": []any{map[string]any{
			"range": map[string]any{"start": map[string]int{"line": line, "character": 0}, "end": map[string]int{"line": line + strings.Count(old.String(), "\n"), "character": 0}},
			"text":  now.String(),
		}},
	})
	d.hear(address)
	text = strings.Replace(text, old.String(), now.String(), 1)
	require.NoError(d, os.WriteFile(file, []byte(text), 0o644))
	d.send("textDocument/didSave", map[string]any{"textDocument": map[string]any{"uri": address}})
	d.send("textDocument/didClose", map[string]any{"textDocument": map[string]any{"uri": address}})
}

func (d *writing) startEditor() {
	d.editor = d.command("tamis", "lsp")
	var err error
	d.to, err = d.editor.StdinPipe()
	require.NoError(d, err)
	from, err := d.editor.StdoutPipe()
	require.NoError(d, err)
	d.from = bufio.NewReader(from)
	require.NoError(d, d.editor.Start())
	d.write(map[string]any{"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": map[string]any{"capabilities": map[string]any{}}})
	d.send("initialized", map[string]any{})
}

func (d *writing) send(method string, params any) {
	d.write(map[string]any{"jsonrpc": "2.0", "method": method, "params": params})
}

func (d *writing) write(m any) {
	body, err := json.Marshal(m)
	require.NoError(d, err)
	_, err = fmt.Fprintf(d.to, "Content-Length: %d\r\n\r\n%s", len(body), body)
	require.NoError(d, err)
}

// hear waits for the findings of the version that the editor has.
func (d *writing) hear(address string) {
	d.Helper()
	for {
		length := 0
		for {
			line, err := d.from.ReadString('\n')
			require.NoError(d, err)
			if line = strings.TrimSpace(line); line == "" {
				break
			}
			length, _ = strconv.Atoi(strings.TrimPrefix(line, "Content-Length: "))
		}
		body := make([]byte, length)
		_, err := io.ReadFull(d.from, body)
		require.NoError(d, err)
		var m struct {
			Params struct {
				URI         string
				Version     int
				Diagnostics []struct {
					Severity int
					Message  string
				}
			}
		}
		require.NoError(d, json.Unmarshal(body, &m))
		if m.Params.URI != address || m.Params.Version != d.version {
			continue
		}
		d.found = nil
		for _, f := range m.Params.Diagnostics {
			if f.Severity < 4 { // a hint is no more than that
				d.found = append(d.found, strings.Join(strings.Fields(f.Message), " "))
			}
		}
		return
	}
}

func (d *writing) told(body string) {
	d.Helper()
	if strings.TrimSpace(body) == "nothing" {
		require.Empty(d, d.found)
		return
	}
	for line := range strings.SplitSeq(strings.TrimSpace(body), "\n") {
		require.Contains(d, strings.Join(d.found, "\n"), strings.Join(strings.Fields(line), " "))
	}
}

// preview waits until the page that is shown all the while holds some words.
func (d *writing) preview(body string) {
	d.Helper()
	if d.browser == nil {
		d.browser = d.command("tamis", "preview", ".")
		from, err := d.browser.StdoutPipe()
		require.NoError(d, err)
		require.NoError(d, d.browser.Start())
		line, err := bufio.NewReader(from).ReadString('\n')
		require.NoError(d, err)
		d.page, _, _ = strings.Cut(line, " ")
	}
	var last string
	for range 600 {
		if last = d.lacks(body); last == "" {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	require.Fail(d, "the preview does not come to hold it", last)
}

// lacks is a line that the preview does not hold as it is now; "" when it holds all.
func (d *writing) lacks(body string) string {
	d.Helper()
	resp, err := http.Get(d.page + "events")
	require.NoError(d, err)
	defer resp.Body.Close()
	var view struct {
		Working, Stale bool
		Findings       []struct{ Message string }
		Documents      []struct{ Title string }
	}
	in := bufio.NewScanner(resp.Body)
	in.Buffer(nil, 8<<20)
	for in.Scan() {
		if data, ok := bytes.CutPrefix(in.Bytes(), []byte("data: ")); ok {
			require.NoError(d, json.Unmarshal(data, &view))
			break
		}
	}
	sheets := ""
	for n := range view.Documents {
		resp, err := http.Get(fmt.Sprintf("%ssheets/%d", d.page, n))
		require.NoError(d, err)
		page, err := io.ReadAll(resp.Body)
		resp.Body.Close()
		require.NoError(d, err)
		sheets += strings.Join(strings.Fields(html.UnescapeString(regexp.MustCompile("<[^>]*>").ReplaceAllString(string(page), " "))), " ")
	}
	for line := range strings.SplitSeq(strings.TrimSpace(body), "\n") {
		words, finding := strings.CutPrefix(line, "found: ")
		held := strings.Contains(sheets, words) && !view.Working && !view.Stale
		if finding {
			held = false
			for _, f := range view.Findings {
				held = held || strings.Contains(f.Message, words)
			}
		}
		if !held {
			return line
		}
	}
	return ""
}
