package pdf

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// errShape is met when fpdf writes in another way than it did.
var errShape = errors.New("the written file is not as expected")

// objects cuts a file that fpdf has written into its objects, from number 1
// on: what stands between "n 0 obj" and "endobj".
func objects(file []byte) ([]string, error) {
	tail := bytes.LastIndex(file, []byte("startxref\n"))
	if tail < 0 {
		return nil, errShape
	}
	var at, n int
	if _, err := fmt.Sscanf(string(file[tail:]), "startxref\n%d\n", &at); err != nil || at < 0 || at > tail {
		return nil, errShape
	}
	rows := strings.Split(string(file[at:tail]), "\n")
	if _, err := fmt.Sscanf(rows[1], "0 %d", &n); err != nil || n < 1 || len(rows) < n+2 {
		return nil, errShape
	}
	type place struct{ from, n int }
	places := make([]place, 0, n)
	for i, row := range rows[3 : n+2] { // the first row is of object 0
		from := 0
		if _, err := fmt.Sscanf(row, "%d 00000 n", &from); err != nil || from >= at {
			return nil, errShape
		}
		places = append(places, place{from, i + 1})
	}
	slices.SortFunc(places, func(a, b place) int { return a.from - b.from })
	out := make([]string, n-1)
	for i, p := range places {
		end := at
		if i+1 < len(places) {
			end = places[i+1].from
		}
		body, ok := strings.CutPrefix(string(file[p.from:end]), fmt.Sprintf("%d 0 obj\n", p.n))
		if body, ok2 := strings.CutSuffix(body, "endobj\n"); ok && ok2 {
			out[p.n-1] = body
		} else {
			return nil, errShape
		}
	}
	return out, nil
}

// pageObject is the number of the object of page n, counted from 0, as fpdf
// numbers them: the page, then what is on it.
func pageObject(n int) int { return 3 + 2*n }

// tagged writes file, as fpdf left it, anew with the structure in t: pages
// point to it, links become objects of their own, and what is small is packed.
// ISO 32000-1, 7.5.7, 7.5.8 and 14.7.
func (t *tags) tagged(file []byte) ([]byte, error) {
	old, err := objects(file)
	if err != nil {
		return nil, err
	}
	count := len(old)
	parts := t.sorted()
	root := count + 1
	for i, p := range parts {
		p.obj = root + 1 + i
	}
	linkObj := root + len(parts) + 1
	byPage := make([][]int, len(t.pages))
	for i := range t.links {
		t.links[i].obj = linkObj + i
		byPage[t.links[i].page] = append(byPage[t.links[i].page], i)
	}
	w := &writer{offsets: map[int]int{}}
	w.b.Grow(len(file)) // it comes out smaller
	press := presser{}
	w.b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	for i, body := range old {
		n := i + 1
		if k := n - pageObject(0); k >= 0 && k%2 == 0 && k/2 < len(t.pages) {
			const head = "<</Type /Page\n"
			if !strings.HasPrefix(body, head) {
				return nil, errShape
			}
			add := fmt.Sprintf("/StructParents %d\n/Tabs /S\n", k/2)
			if list := byPage[k/2]; len(list) > 0 {
				add += "/Annots ["
				for _, l := range list {
					add += fmt.Sprintf("%d 0 R ", t.links[l].obj)
				}
				add += "]\n"
			}
			body = head + add + body[len(head):]
		} else if k > 0 && k/2 < len(t.pages) {
			if body, err = press.content(body); err != nil {
				return nil, err
			}
		}
		if n == count {
			const head = "<<\n/Type /Catalog\n"
			if !strings.HasPrefix(body, head) {
				return nil, errShape
			}
			body = head + fmt.Sprintf("/MarkInfo <</Marked true>>\n/StructTreeRoot %d 0 R\n/ViewerPreferences <</DisplayDocTitle true>>\n", root) + body[len(head):]
		}
		w.object(n, body)
	}
	for i, l := range t.links {
		w.object(l.obj, fmt.Sprintf("<</Type /Annot /Subtype /Link /Rect [%s] /Border [0 0 0] /F 4 /StructParent %d /Contents %s %s>>\n",
			l.rect, len(t.pages)+i, text16(l.says), l.act))
	}
	var packed []string
	packed = append(packed, t.root(parts, root))
	for _, p := range parts {
		packed = append(packed, t.object(p, root))
	}
	w.pack(root, linkObj+len(t.links), packed)
	return w.end(count, count-1), nil
}

// root is the top of the tree, with the way back from the pieces of each page.
func (t *tags) root(parts []*part, root int) string {
	var b strings.Builder
	b.WriteString("<</Type/StructTreeRoot/K[")
	for _, p := range t.top {
		b.WriteString(ref(p.obj))
		b.WriteByte(' ')
	}
	b.WriteString("]/ParentTree<</Nums[")
	for n, pieces := range t.pages {
		fmt.Fprintf(&b, "%d[", n)
		for i, p := range pieces {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(ref(p.obj))
		}
		b.WriteString("]")
	}
	for i, l := range t.links {
		fmt.Fprintf(&b, "%d %d 0 R ", len(t.pages)+i, l.part.obj)
	}
	fmt.Fprintf(&b, "]>>/ParentTreeNextKey %d>>", len(t.pages)+len(t.links))
	return b.String()
}

// ref leads to an object. ISO 32000-1, 7.3.10.
func ref(n int) string { return strconv.Itoa(n) + " 0 R" }

// writer writes objects one after the other and remembers where they are.
type writer struct {
	b       bytes.Buffer
	offsets map[int]int
	inside  map[int][2]int // object -> the packed stream it is in, its place there
	last    int
	z       *zlib.Writer // made once, used for every stream
}

func (w *writer) object(n int, body string) {
	w.offsets[n] = w.b.Len()
	w.last = max(w.last, n)
	w.b.Write(strconv.AppendInt(w.b.AvailableBuffer(), int64(n), 10))
	w.b.WriteString(" 0 obj\n")
	w.b.WriteString(body)
	w.b.WriteString("endobj\n")
}

// pack puts objects, from number first on, into compressed streams, which are
// numbered from stream on.
func (w *writer) pack(first, stream int, bodies []string) {
	const most = 250 // in one stream
	w.inside = map[int][2]int{}
	for k := 0; k < len(bodies); k += most {
		var head, body []byte
		some := bodies[k:min(k+most, len(bodies))]
		for i, s := range some {
			head = append(strconv.AppendInt(head, int64(first+k+i), 10), ' ')
			head = append(strconv.AppendInt(head, int64(len(body)), 10), ' ')
			body = append(append(body, s...), '\n')
			w.inside[first+k+i] = [2]int{stream, i}
		}
		n := len(head)
		data := w.deflate(append(head, body...))
		w.object(stream, fmt.Sprintf("<</Type /ObjStm /N %d /First %d /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\n", len(some), n, len(data), data))
		stream++
	}
}

// end writes the table of where everything is, and returns the file.
func (w *writer) end(catalog, info int) []byte {
	n := w.last + 1
	at := w.b.Len()
	w.offsets[n] = at
	var rows []byte
	row := func(kind byte, a, b int) {
		rows = append(rows, kind)
		rows = binary.BigEndian.AppendUint32(rows, uint32(a))
		rows = binary.BigEndian.AppendUint16(rows, uint16(b))
	}
	row(0, 0, 65535)
	for i := 1; i <= n; i++ {
		if in, ok := w.inside[i]; ok {
			row(2, in[0], in[1])
		} else {
			row(1, w.offsets[i], 0)
		}
	}
	data := w.deflate(rows)
	fmt.Fprintf(&w.b, "%d 0 obj\n<</Type /XRef /Size %d /W [1 4 2] /Root %d 0 R /Info %d 0 R /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n",
		n, n+1, catalog, info, len(data), data, at)
	return w.b.Bytes()
}

// presser compresses the contents of pages one after the other, as quickly as
// can be. What zlib needs for it is made once: for a small page that is most of
// the work.
type presser struct {
	b bytes.Buffer
	z *zlib.Writer
}

// content compresses the object of what is on a page.
func (p *presser) content(body string) (string, error) {
	var n int
	_, from, ok := strings.Cut(body, ">>\nstream\n")
	if _, err := fmt.Sscanf(body, "<</Length %d>>\n", &n); err != nil || !ok || n < 0 || len(from) < n || from[n:] != "\nendstream\n" {
		return "", errShape
	}
	p.b.Reset()
	if p.z == nil {
		z, err := zlib.NewWriterLevel(&p.b, zlib.BestSpeed)
		if err != nil {
			return "", err
		}
		p.z = z
	}
	p.z.Reset(&p.b)
	_, _ = p.z.Write([]byte(from[:n])) // a buffer never fails
	_ = p.z.Close()
	return fmt.Sprintf("<</Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\n", p.b.Len(), p.b.String()), nil
}

// deflate compresses as well as it goes in good time.
func (w *writer) deflate(data []byte) []byte {
	var b bytes.Buffer
	if w.z == nil {
		w.z = zlib.NewWriter(&b)
	}
	w.z.Reset(&b)
	_, _ = w.z.Write(data) // a buffer never fails
	_ = w.z.Close()
	return b.Bytes()
}
