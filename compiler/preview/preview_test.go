package preview

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

const soup = `dish Leek soup
  serves 4
  gather
    500 g    leeks, sliced
    40 g     butter
  method
    - Melt the butter in a pot, add the leeks and cook gently.
      | ring low | leave 20 min
  serve hot
`

// reader is a page that is open.
type reader struct {
	*testing.T
	dir  string
	url  string
	last view
	from *bufio.Scanner
}

// open shows a folder with files to one reader.
func open(t *testing.T, opt Options, path string, files map[string]string) *reader {
	t.Helper()
	r := &reader{T: t, dir: t.TempDir()}
	for name, text := range files {
		r.write(name, text)
	}
	opt.wrong = func(what any) { t.Errorf("%v\n%s", what, debug.Stack()) }
	at, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- New(filepath.Join(r.dir, path), opt).Serve(ctx, at) }()
	t.Cleanup(func() {
		cancel()
		require.NoError(t, <-done)
	})
	r.url = "http://" + at.Addr().String()
	resp, err := http.Get(r.url + "/events")
	require.NoError(t, err)
	t.Cleanup(func() { resp.Body.Close() })
	hang := time.AfterFunc(time.Minute, func() { resp.Body.Close() }) // a view that never comes is a failure with words
	t.Cleanup(func() { hang.Stop() })
	require.Equal(t, "text/event-stream", resp.Header.Get("Content-Type"))
	r.from = bufio.NewScanner(resp.Body)
	r.from.Buffer(nil, 8<<20)
	return r
}

func (r *reader) write(name, text string) {
	r.Helper()
	p := filepath.Join(r.dir, filepath.FromSlash(name))
	require.NoError(r, os.MkdirAll(filepath.Dir(p), 0o755))
	require.NoError(r, os.WriteFile(p, []byte(text), 0o644))
}

// until waits for a view that fits. One that never comes ends with the stream.
func (r *reader) until(fits func(view) bool) view {
	r.Helper()
	for r.from.Scan() {
		data, ok := strings.CutPrefix(r.from.Text(), "data: ")
		if !ok {
			continue
		}
		r.last = view{}
		require.NoError(r, json.Unmarshal([]byte(data), &r.last))
		if fits(r.last) {
			return r.last
		}
	}
	require.Fail(r, "no such view came", "the last: %+v", r.last)
	return view{}
}

// sheetsHold waits for sheets of the text as it is that hold some words.
func (r *reader) sheetsHold(words string) view {
	r.Helper()
	return r.until(func(v view) bool {
		return !v.Working && !v.Stale && len(v.Documents) > 0 && strings.Contains(r.sheet(), words)
	})
}

func (r *reader) get(path string) string {
	r.Helper()
	resp, err := http.Get(r.url + path)
	require.NoError(r, err)
	defer resp.Body.Close()
	var b strings.Builder
	_, err = bufio.NewReader(resp.Body).WriteTo(&b)
	require.NoError(r, err)
	return b.String()
}

// sheet is the words of the first document.
func (r *reader) sheet() string {
	r.Helper()
	page := r.get("/sheets/0")
	_, page, _ = strings.Cut(page, "<body")
	page, _, _ = strings.Cut(page, "<script>")
	return strings.Join(strings.Fields(html.UnescapeString(regexp.MustCompile("<[^>]*>").ReplaceAllString(page, " "))), " ")
}

// What is saved is shown: pages, findings, the line that was changed and its reading.
func TestASaveIsShown(t *testing.T) {
	for _, deaf := range []bool{false, true} {
		t.Run(fmt.Sprintf("deaf %v", deaf), func(t *testing.T) {
			opt := Options{deaf: deaf}
			if deaf {
				opt.Poll = 20 * time.Millisecond
			}
			r := open(t, opt, "", map[string]string{"soup.tamis": soup})
			v := r.sheetsHold("500 g")
			require.Equal(t, "Leek soup", v.Documents[0].Title)
			require.Equal(t, []string{"soup.tamis"}, v.Files)

			r.write("soup.tamis", strings.Replace(soup, "500 g", "650 g", 1))
			v = r.sheetsHold("650 g")
			require.Equal(t, &place{"soup.tamis", 4}, v.At)

			r.write("soup.tamis", strings.Replace(soup, "add the leeks", "add the parsnips and the leeks", 1))
			v = r.until(func(v view) bool { return len(v.Findings) > 0 && !v.Working })
			require.Equal(t, &place{"soup.tamis", 7}, v.At)
			var said struct{ HTML string }
			require.NoError(t, json.Unmarshal([]byte(r.get("/line?file=soup.tamis&line=7")), &said))
			require.Contains(t, said.HTML, "Step 1 of Leek soup")
			require.Contains(t, said.HTML, "takes all 40 g butter")
			require.NoError(t, json.Unmarshal([]byte(r.get("/line?file=soup.tamis&line=4")), &said))
			require.Contains(t, said.HTML, "<strong>500 g leeks</strong>")
			require.Contains(t, r.get("/text?file=soup.tamis&line=1"), `"lines":["dish Leek soup","  serves 4"`)
		})
	}
}

// With errors, the sheets of the text before stay, and come back with the cure.
func TestSheetsStayWhileThereAreErrors(t *testing.T) {
	r := open(t, Options{}, "", map[string]string{"soup.tamis": soup})
	good := r.sheetsHold("500 g").Documents
	r.write("soup.tamis", strings.Replace(soup, "500 g", "500 grandmas", 1)+"menu\n")
	v := r.until(func(v view) bool { return v.Stale })
	require.Contains(t, fmt.Sprint(v.Findings), "error")
	require.Equal(t, 1, len(v.Documents))
	require.Equal(t, good[0].Sum, v.Documents[0].Sum)
	require.Contains(t, r.sheet(), "500 g")
	r.write("soup.tamis", soup)
	v = r.until(func(v view) bool { return !v.Stale && !v.Working })
	require.Equal(t, good[0].Sum, v.Documents[0].Sum, "the same text gives the same page")
}

// A file that is written in pieces, saved by a move, renamed or taken away, and folders
// that come and go, are taken as they lie in the end.
func TestFilesComeAndGo(t *testing.T) {
	r := open(t, Options{}, "", map[string]string{"soup.tamis": soup})
	r.sheetsHold("500 g")

	// emptied, then filled piece by piece: what was there is never taken as gone
	name := filepath.Join(r.dir, "soup.tamis")
	text := strings.Replace(soup, "500 g", "510 g", 1)
	f, err := os.Create(name)
	require.NoError(t, err)
	for len(text) > 0 {
		n := min(60, len(text))
		_, err = f.WriteString(text[:n])
		require.NoError(t, err)
		text = text[n:]
	}
	require.NoError(t, f.Close())
	v := r.until(func(v view) bool {
		require.Empty(t, v.Trouble)
		return !v.Working && !v.Stale && strings.Contains(r.sheet(), "510 g")
	})
	require.Len(t, v.Documents, 1)

	// by a move, as many editors save
	require.NoError(t, os.WriteFile(name+"~", []byte(strings.Replace(soup, "500 g", "520 g", 1)), 0o644))
	require.NoError(t, os.Rename(name+"~", name))
	r.sheetsHold("520 g")

	// put aside, and written anew
	require.NoError(t, os.Rename(name, name+".bak"))
	r.write("soup.tamis", strings.Replace(soup, "500 g", "530 g", 1))
	r.until(func(v view) bool {
		require.Empty(t, v.Trouble)
		return !v.Working && !v.Stale && strings.Contains(r.sheet(), "530 g")
	})

	// under another name, and beside it a folder that a base is drawn from
	require.NoError(t, os.Rename(name, filepath.Join(r.dir, "leeks.tamis")))
	r.until(func(v view) bool { return !v.Working && len(v.Files) == 1 && v.Files[0] == "leeks.tamis" })
	r.write("leeks.tamis", strings.Replace(soup, "    40 g     butter\n", "    40 g     butter\n    200 ml   stocks/Stock\n", 1))
	r.until(func(v view) bool { return v.Stale || len(v.Findings) > 0 })
	r.write("stocks/deep/nothing.txt", "")
	r.write("stocks/stock.tamis", "base Stock\n  makes 1 l\n  gather\n    1 l water\n    2 carrots\n  method\n    - Simmer the carrots in the water. | ring low | leave 30 min\n")
	r.sheetsHold("carrots")
	r.write("stocks/stock.tamis", "base Stock\n  makes 1 l\n  gather\n    1 l water\n    3 onions\n  method\n    - Simmer the onions in the water. | ring low | leave 30 min\n")
	r.sheetsHold("onions")
	require.NoError(t, os.RemoveAll(filepath.Join(r.dir, "stocks")))
	v = r.until(func(v view) bool { return v.Stale })
	require.Contains(t, r.sheet(), "onions", "of the text before")

	// all of it gone, and come again
	require.NoError(t, os.RemoveAll(r.dir))
	v = r.until(func(v view) bool { return v.Trouble != "" })
	require.Contains(t, v.Trouble, "no")
	require.Empty(t, v.Findings)
	r.write("soup.tamis", strings.Replace(soup, "500 g", "540 g", 1))
	v = r.sheetsHold("540 g")
	require.Empty(t, v.Trouble)
}

// One file of a folder is shown alone; a folder that is not there yet is waited for.
func TestWhatIsAskedForIsShown(t *testing.T) {
	r := open(t, Options{}, "soup.tamis", map[string]string{"soup.tamis": soup, "toast.tamis": "dish Toast\n  serves 1\n  gather\n    2 slices bread\n  method\n    - Toast the bread. | work 2 min\n"})
	v := r.sheetsHold("500 g")
	require.Equal(t, []string{"soup.tamis"}, v.Files)
	r = open(t, Options{Poll: 20 * time.Millisecond}, "later", nil)
	v = r.until(func(v view) bool { return v.Trouble != "" })
	require.Contains(t, v.Trouble, "there is no file or folder")
	r.write("later/soup.tamis", soup)
	r.sheetsHold("500 g")
}

// Only a browser of this machine that was told the address is answered.
func TestOthersAreTurnedAway(t *testing.T) {
	s := New(t.TempDir(), Options{})
	h := s.Handler(8080)
	ask := func(method, host, origin, site string) *http.Response {
		q := httptest.NewRequest(method, "/", nil)
		q.Host = host
		if origin != "" {
			q.Header.Set("Origin", origin)
		}
		if site != "" {
			q.Header.Set("Sec-Fetch-Site", site)
		}
		w := httptest.NewRecorder()
		h.ServeHTTP(w, q)
		return w.Result()
	}
	for _, c := range []struct {
		method, host, origin, site string
		want                       int
	}{
		{"GET", "127.0.0.1:8080", "", "", 200},
		{"GET", "localhost:8080", "", "none", 200},
		{"GET", "[::1]:8080", "http://[::1]:8080", "same-origin", 200},
		{"HEAD", "127.0.0.1:8080", "", "", 200},
		{"GET", "evil.example:8080", "", "", 421}, // a name that was led here
		{"GET", "127.0.0.1.evil.example:8080", "", "", 421},
		{"GET", "127.0.0.1:8081", "", "", 421},
		{"GET", "127.0.0.1", "", "", 421},
		{"GET", "", "", "", 421},
		{"GET", "127.0.0.1:8080", "https://evil.example", "", 403},
		{"GET", "127.0.0.1:8080", "null", "", 403},
		{"GET", "127.0.0.1:8080", "http://localhost:8080", "", 403},
		{"GET", "127.0.0.1:8080", "", "cross-site", 403},
		{"GET", "127.0.0.1:8080", "", "same-site", 403},
		{"POST", "127.0.0.1:8080", "http://127.0.0.1:8080", "same-origin", 405},
	} {
		resp := ask(c.method, c.host, c.origin, c.site)
		require.Equal(t, c.want, resp.StatusCode, "%+v", c)
		require.NotEmpty(t, resp.Header.Get("Content-Security-Policy"))
		require.Equal(t, "same-origin", resp.Header.Get("Cross-Origin-Resource-Policy"))
		require.Empty(t, resp.Header.Get("Access-Control-Allow-Origin"))
	}
	policy := ask("GET", "127.0.0.1:8080", "", "").Header.Get("Content-Security-Policy")
	require.Contains(t, policy, "default-src 'none'")
	require.Contains(t, policy, "frame-ancestors 'none'")
	require.NotContains(t, policy, "unsafe")
	require.NotContains(t, policy, "*")

	// and only this machine can ask
	at, err := net.Listen("tcp", "0.0.0.0:0")
	require.NoError(t, err)
	require.Error(t, s.Serve(context.Background(), at))
}

// No more can be read than the texts of the book.
func TestNothingElseIsHandedOut(t *testing.T) {
	r := open(t, Options{}, "", map[string]string{"soup.tamis": soup + "\n# <script>alert(1)</script> & [a](javascript:alert(1))\n", "secret.txt": "secret"})
	r.sheetsHold("500 g")
	for _, p := range []string{"/text?file=secret.txt", "/text?file=../soup.tamis", "/text", "/sheets/1", "/sheets/-1", "/sheets/x", "/sheets/0/../../secret.txt", "/secret.txt"} {
		resp, err := http.Get(r.url + p)
		require.NoError(t, err)
		resp.Body.Close()
		require.Equal(t, http.StatusNotFound, resp.StatusCode, p)
	}
	require.Contains(t, r.get("/text?file=soup.tamis&line=9223372036854775807"), `"dish Leek soup"`, "far below the end")
	for _, p := range []string{"/line?file=secret.txt", "/line?file=soup.tamis&line=-4", "/line?file=soup.tamis&line=99999999999999999999", "/line?file=soup.tamis&line=11"} {
		require.NotContains(t, r.get(p), "script", p)
	}
}

// The last line that is otherwise is where somebody writes.
func TestWhereWasWritten(t *testing.T) {
	for _, c := range []struct {
		was, now string
		line     int
	}{
		{"", "a\nb\n", 2},
		{"a\nb\nc\n", "a\nB\nc\n", 2},
		{"a\nb\nc\n", "a\nb\nx\ny\nc\n", 4},
		{"a\nb\nc\n", "a\nb\nx\n\n\nc\n", 3},
		{"a\nb\nc\n", "a\nc\n", 1},
		{"a\nb\n", "b\n", 1},
		{"a\n", "", 1},
		{"a\na\n", "a\na\na\n", 2},
		{"a\nb", "a\nbc", 2},
	} {
		require.Equal(t, c.line, lastChange(c.was, c.now), "%q, then %q", c.was, c.now)
	}
}

// From a save to the page, a normal menu costs less than 150 ms of processor time.
func TestASaveIsQuick(t *testing.T) {
	files := map[string]string{}
	const example = "../../examples/harvest-lunch"
	names, err := os.ReadDir(example)
	require.NoError(t, err)
	for _, n := range names {
		if strings.HasSuffix(n.Name(), ".tamis") {
			text, err := os.ReadFile(filepath.Join(example, n.Name()))
			require.NoError(t, err)
			files[n.Name()] = string(text)
		}
	}
	r := open(t, Options{}, "", files)
	first, known := effort.Of(func() { r.sheetsHold("Slow lamb") })
	if !known {
		t.Skip("this system does not say how long work takes")
	}
	least := time.Hour
	for i := range 5 {
		took, _ := effort.Of(func() {
			r.write("menu.tamis", files["menu.tamis"]+strings.Repeat("# a note\n", i+1))
			r.until(func(v view) bool { return v.At != nil && !v.Working && !v.Stale && v.Round == i+2 })
		})
		least = min(least, took)
	}
	t.Logf("first pages %v, a save to its page %v of processor time", first, least)
	require.Less(t, least, 150*time.Millisecond)
}
