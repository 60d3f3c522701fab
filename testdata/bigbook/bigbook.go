// Package bigbook draws books of any size, to see how time grows with them.
// The recipes are invented and vary: bases drawn on within a chapter and across
// chapters, choices, products, moments, prose, and now and then a slip of the
// kinds the rules look for. The same seed gives the same book.
package bigbook

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// Book says what to draw.
type Book struct {
	Recipes int
	Seed    uint64
	// Chapter is how many recipes stand in a folder: 0 is 100, and as many as
	// there are recipes puts all of them into one.
	Chapter int
	// PerFile is how many recipes stand in a file; 0 is 1.
	PerFile int
}

// Files draws the book: texts by slash path. A thousand recipes are some 1.2 MB.
func (b Book) Files() map[string]string {
	if b.Chapter <= 0 {
		b.Chapter = 100
	}
	b.PerFile = max(1, b.PerFile)
	d := &drawer{Rand: rand.New(rand.NewPCG(b.Seed, 1)), used: map[string]bool{}}
	out := map[string]string{"book.tamis": "book A long shelf\n  by nobody in particular\n", "larder.tamis": "larder\n  units metric\n"}
	var far []base // bases of the chapters before
	for n := 0; n < b.Recipes; {
		chapter := fmt.Sprintf("chapter-%03d", n/b.Chapter+1)
		var near []base
		for first := n; n < b.Recipes && n < first+b.Chapter; n++ {
			var text string
			if k := n - first; k%8 == 0 { // bases come before what draws on them, except that their names are known everywhere
				var made base
				text, made = d.base(near)
				near = append(near, made)
				far = append(far, base{chapter + "/" + made.name, made.unit})
			} else {
				text = d.dish(near, far)
			}
			name := fmt.Sprintf("%s/recipe-%05d.tamis", chapter, n/b.PerFile*b.PerFile+1)
			if out[name] != "" {
				text = "\n" + text
			}
			out[name] += text
		}
	}
	return out
}

// Lines draws one recipe that gathers n things, each used in a step of ten.
func Lines(n int) string {
	var b strings.Builder
	b.WriteString("dish Everything at once\n  serves 40\n  gather\n")
	names := make([]string, n)
	for i := range names {
		names[i] = fmt.Sprintf("%s %s", syllables(i), things[i%len(things)].name)
		fmt.Fprintf(&b, "    %d g   %s\n", 10+i%400, names[i])
	}
	b.WriteString("  method\n")
	for i := 0; i < n; i += 10 {
		fmt.Fprintf(&b, "    - Stir in the %s. | work 2 min\n", strings.Join(names[i:min(n, i+10)], ", the "))
	}
	b.WriteString("  serve hot\n")
	return b.String()
}

// Chain draws a dish and n bases, each made of the next.
func Chain(n int) string {
	var b strings.Builder
	b.WriteString("larder\n  units metric\n\ndish End of the line\n  serves 4\n  gather\n    100 g    essence " + syllables(0) + "\n  method\n    - Warm the essence " + syllables(0) + ". | ring low | work 2 min\n  serve hot\n")
	for i := range n {
		of := "beetroot juice"
		if i+1 < n {
			of = "essence " + syllables(i+1)
		}
		fmt.Fprintf(&b, "\nbase Essence %s\n  makes 100 g\n  gather\n    110 g    %s\n  method\n    - Simmer the %s until it has lost a little. | ring low | work 2 min | leave 5 min\n", syllables(i), of, of)
	}
	return b.String()
}

// syllables writes a number as a word that is told from its neighbours by more
// than a letter.
func syllables(i int) string {
	parts := []string{"bra", "ko", "lin", "mos", "tel", "dur", "wen", "sip", "gar", "hul", "vey", "nat"}
	s := ""
	for k := 0; k < 4 || i > 0; k++ {
		s += parts[(i+5*k)%len(parts)]
		i /= len(parts)
	}
	return s
}

type drawer struct {
	*rand.Rand
	used map[string]bool
}

type base struct{ name, unit string }

func (d *drawer) of(words []string) string { return words[d.IntN(len(words))] }

func (d *drawer) chance(percent int) bool { return d.IntN(100) < percent }

// title draws a name that no other block has.
func (d *drawer) title(draw func() string) string {
	for n := 0; ; n++ {
		name := draw()
		if n > 20 {
			name += " " + syllables(len(d.used))
		}
		if key := strings.ToLower(name); !d.used[key] {
			d.used[key] = true
			return strings.ToUpper(name[:1]) + name[1:]
		}
	}
}

// line is one gathered thing, as drawn for a recipe.
type line struct {
	written string // the line
	said    string // as a sentence says it
	act     string // what is first done with it
}

// draw is one gathered thing that stands in none of the lines before.
func (d *drawer) draw(have map[string]bool) line {
	for {
		t := things[d.IntN(len(things))]
		if have[t.name] {
			continue
		}
		have[t.name] = true
		name := t.name
		if d.chance(20) { // of a place or a grower: names grow with the book
			name = syllables(d.IntN(1700))[:6+d.IntN(3)] + " " + name
		}
		amount := ""
		switch t.unit {
		case "":
			amount = fmt.Sprint(1 + d.IntN(6))
		case "g":
			amount = fmt.Sprintf("%d g", t.most/10*(2+d.IntN(9)))
		default:
			amount = fmt.Sprintf("%d %s", 1+d.IntN(max(1, t.most)), t.unit)
			if t.unit == "ml" {
				amount = fmt.Sprintf("%d ml", t.most/10*(2+d.IntN(9)))
			}
		}
		w := fmt.Sprintf("    %-8s %s", amount, name)
		if t.cut != "" && d.chance(80) {
			w += ", " + t.cut
			if d.chance(60) {
				w = fmt.Sprintf("%-46s | work %d min", w, 2+d.IntN(6))
			}
		}
		return line{w, name, t.act}
	}
}

func (d *drawer) about() string {
	return "  about\n    " + fmt.Sprintf("%s this for %s, when %s. %s\n", d.of(abouts), d.of(whom), d.of(when), d.of(closing))
}

// base draws a base: what it makes, of what, and how.
func (d *drawer) base(near []base) (string, base) {
	kind := bases[d.IntN(len(bases))]
	name := d.title(func() string { return d.of(manners) + " " + d.of(flavours) + " " + kind })
	unit, many := "ml", 400+100*d.IntN(12)
	if kind == "butter" || kind == "paste" || kind == "relish" || kind == "crumb" {
		unit, many = "g", 200+50*d.IntN(12)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "base %s\n  makes %d %s\n", name, many, unit)
	if d.chance(70) {
		b.WriteString(d.about())
	}
	if d.chance(70) {
		fmt.Fprintf(&b, "  keeps %d days, fridge\n", 1+d.IntN(4))
	}
	b.WriteString("  gather\n")
	have := map[string]bool{}
	var lines []line
	if len(near) > 0 && d.chance(35) {
		o := near[d.IntN(len(near))]
		low := strings.ToLower(o.name)
		lines = append(lines, line{fmt.Sprintf("    %-8s %s", fmt.Sprintf("%d %s", 50+10*d.IntN(20), o.unit), low), low, ""})
	}
	for range 5 + d.IntN(4) {
		lines = append(lines, d.draw(have))
	}
	d.write(&b, lines, false)
	return b.String(), base{name, unit}
}

func (d *drawer) dish(near, far []base) string {
	name := d.title(func() string {
		return d.of(manners) + " " + things[d.IntN(len(things))].name + " with " + things[d.IntN(len(things))].name
	})
	var b strings.Builder
	fmt.Fprintf(&b, "dish %s\n  serves %d\n", name, 2+2*d.IntN(5))
	if d.chance(75) {
		b.WriteString(d.about())
	}
	b.WriteString("  gather\n")
	have := map[string]bool{}
	var lines []line
	for range 6 + d.IntN(5) {
		lines = append(lines, d.draw(have))
	}
	drawn := base{}
	switch k := d.IntN(10); {
	case k < 5 && len(near) > 0:
		drawn = near[d.IntN(len(near))]
	case k < 6 && len(far) > 0:
		drawn = far[d.IntN(len(far))]
	}
	if drawn.name != "" {
		said := drawn.name
		if i := strings.LastIndexByte(said, '/'); i >= 0 {
			said = said[i+1:]
		} else {
			drawn.name = strings.ToLower(said)
		}
		lines = append(lines, line{fmt.Sprintf("    %-8s %s", fmt.Sprintf("%d %s", 40+10*d.IntN(20), drawn.unit), drawn.name), strings.ToLower(said), ""})
	}
	d.write(&b, lines, true)
	fmt.Fprintf(&b, "  serve %s\n", d.of([]string{"hot, within 10 min", "warm", "cold", "hot"}))
	return b.String()
}

// write writes the list and a method that uses it.
func (d *drawer) write(b *strings.Builder, lines []line, dish bool) {
	for _, l := range lines {
		b.WriteString(l.written + "\n")
	}
	choice := d.chance(12)
	if choice {
		fmt.Fprintf(b, "    either with crackling\n      %d g     pork rind, cut in strips\n    or with seeds\n      %d g     pumpkin seeds, toasted\n", 50+10*d.IntN(5), 10+10*d.IntN(5))
	}
	b.WriteString("    salt                                       | to taste\n  method\n")
	if d.chance(7) { // one thing too many, which nobody uses
		lines = lines[:len(lines)-1]
	}
	made := ""
	for i := 0; i < len(lines); {
		n := min(len(lines)-i, 1+d.IntN(3))
		var names []string
		for _, l := range lines[i : i+n] {
			names = append(names, "the "+l.said)
		}
		said := strings.Join(names, ", ")
		if n > 1 {
			said = strings.Join(names[:n-1], ", ") + " and " + names[n-1]
		}
		act := lines[i].act
		if act == "" || d.chance(50) {
			act = d.of(acts)
		}
		min := 3 + d.IntN(20)
		text := fmt.Sprintf("%s %s%s", act, said, d.of(endings))
		if strings.Contains(text, "%d") {
			text = fmt.Sprintf(text, min)
		}
		if made != "" && d.chance(30) {
			text += " Fold in the " + made + "."
			made = ""
		}
		fmt.Fprintf(b, "    - %s", wrap(text))
		margin := d.of(margins)
		if strings.Contains(margin, "%d") {
			margin = fmt.Sprintf(margin, min)
		}
		if i == 0 && dish && d.chance(10) {
			made = d.of(flavours) + " mixture"
			margin += " | makes 50 g " + made
		}
		fmt.Fprintf(b, "\n      %s\n", margin)
		if d.chance(12) {
			b.WriteString("      at half time: Turn everything over. | work 1 min\n")
		}
		i += n
	}
	if choice {
		b.WriteString("    - Crisp the pork rind in a dry pan.\n      | if with crackling | ring high | work 8 min\n    - Scatter with the pumpkin seeds.\n      | if with seeds | work 1 min\n")
	}
	fmt.Fprintf(b, "    - %s\n      | work %d min\n", d.of(lasts), 1+d.IntN(5))
}

// wrap breaks a sentence into lines as a writer would.
func wrap(text string) string {
	var out strings.Builder
	col := 6
	for i, w := range strings.Fields(text) {
		switch {
		case i == 0:
		case col+1+len(w) > 84:
			out.WriteString("\n      ")
			col = 6
		default:
			out.WriteByte(' ')
			col++
		}
		out.WriteString(w)
		col += len(w)
	}
	return out.String()
}
