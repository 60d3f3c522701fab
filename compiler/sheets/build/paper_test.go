package build_test

import (
	"context"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
	"tamis/lang/effort"
	"tamis/testdata/menus"
)

// The plan against paper: every bar, flag, row and time of the sheets is one of
// the plan's, and everything the plan has is on the sheets. What is wanted is
// worked out here from the plan itself, by plain sums; nothing of what makes the
// sheets is used.
func TestPaperIsThePlan(t *testing.T) {
	dirs, err := filepath.Glob("../../../examples/*/README.md")
	require.NoError(t, err)
	for i, d := range dirs {
		if i%2 == 0 && !effort.Long() { // each plan takes its time
			continue
		}
		tree, err := load.Path(filepath.Dir(d))
		require.NoError(t, err)
		holdAgainstPlan(t, filepath.Base(filepath.Dir(d)), tree)
	}
	held := 0
	rounds := effort.Rounds[uint64](8, 20)
	for seed := range rounds {
		tree, err := load.FS(menus.ByChance(seed), ".", "", "")
		require.NoError(t, err)
		held += holdAgainstPlan(t, fmt.Sprint("seed ", seed), tree)
	}
	require.Greater(t, held, int(rounds)/2, "menus of chance with sheets")
}

// holdAgainstPlan compiles a folder and compares; it tells how many plans there
// were.
func holdAgainstPlan(t *testing.T, name string, tree *load.Tree) (held int) {
	r := compiler.Compile(context.Background(), tree, compiler.Options{PlanAll: true, Sheets: sheets.Kinds()})
	for i, line := range r.Timelines {
		if line == nil || i >= len(r.Documents) {
			continue
		}
		held++
		p := &paper{T: t, doc: r.Documents[i], Timeline: line}
		t.Run(name, func(t *testing.T) {
			p.T = t
			p.chart()
			p.wall()
			p.runSheet()
			p.countdown()
			p.byCook()
			p.ovenDoor()
			p.prep()
			p.terminal()
			p.atMoments()
			p.afterDelay()
		})
	}
	for _, doc := range r.Documents {
		for _, line := range r.Timelines {
			if line != nil {
				(&paper{T: t, doc: doc, Timeline: line}).orderOfWork(name)
			}
		}
	}
	return held
}

// paper is one document beside its plan.
type paper struct {
	*testing.T
	*timeline.Timeline
	doc   *sheets.Document
	posts *[]*wallRow // of the wall sheet
}

// clock is a moment as it is printed.
func (p *paper) clock(m int) string {
	if !p.Clock {
		return counted(m)
	}
	m = (p.shown(m)%1440 + 1440) % 1440
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
}

// shown is what the clock shows: the menus of chance are served on 31 October 2027,
// and in London the clocks went back that night, from 02:00 to 01:00.
func (p *paper) shown(m int) int {
	if k := p.Meal.Kitchen; p.Clock && m < 60 && p.Meal.Menu.Serve.Format(time.DateOnly) == "2027-10-31" && k != nil && k.Zone != nil && k.Zone.String() == "Europe/London" {
		return m + 60
	}
	return m
}

func counted(m int) string {
	switch {
	case m == 0:
		return "T"
	case m < 0:
		return fmt.Sprintf("T−%d:%02d", -m/60, -m%60)
	}
	return fmt.Sprintf("T+%d:%02d", m/60, m%60)
}

// day numbers the day of a moment. Without a clock a day ends six hours after
// the first serving.
func (p *paper) day(m int) int {
	if !p.Clock {
		m += 1440 - 360
	}
	m = p.shown(m)
	d := m / 1440
	if m%1440 < 0 {
		d--
	}
	return d
}

// dayTitle is how the sheets head a day.
func (p *paper) dayTitle(d int) string {
	if p.Clock {
		return p.Meal.Menu.Serve.AddDate(0, 0, d).Format("Monday 2 January")
	}
	switch {
	case d == 0:
		return "The day"
	case d == -1:
		return "The day before"
	case d < 0:
		return fmt.Sprintf("%d days before", -d)
	}
	return "The day after"
}

func letterOf(m *demand.Making) string {
	if m == nil {
		return ""
	}
	return m.Letter
}

// fractions are set as printers set them.
var fractions = strings.NewReplacer("1/2", "½", "1/4", "¼", "3/4", "¾")

// words is what the sheets say of a job.
func words(j *timeline.Job) string {
	text := fractions.Replace(j.Title)
	if j.Step != nil {
		text = strings.TrimSuffix(j.Step.Step.Line, ".")
		switch {
		case j.Step.Step.OnlyIfNeeded:
			text += ", only if needed"
		case j.LoadText() != "":
			text += ": " + j.LoadText()
		default:
			text = j.Step.Step.Line
		}
	}
	r := []rune(text)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// dish is whose a job is.
func dish(j *timeline.Job) string {
	switch {
	case j.Making == nil:
		return ""
	case j.Number > 0:
		return fmt.Sprintf("%s, step %d", j.Making.Recipe.Name, j.Number)
	}
	return j.Making.Recipe.Name
}

func touchWords(j *timeline.Job, t timeline.Touch) string {
	if t.Text != "" {
		return t.Text
	}
	return "See to it: " + strings.ToLower(j.Title[:1]) + j.Title[1:]
}

func verb(h *timeline.Heat) string {
	if h.Turned {
		return "Turn"
	}
	return "Heat"
}

// sheet is the sheet of a kind; nil when there is none.
func (p *paper) sheet(kind sheets.Kind) *sheets.Sheet {
	for i, s := range p.doc.Sheets {
		if s.Kind == kind {
			return &p.doc.Sheets[i]
		}
	}
	return nil
}

// table is the only table of a sheet.
func (p *paper) table(kind sheets.Kind) *sheets.Table {
	s := p.sheet(kind)
	require.NotNil(p, s, "there is no %s", kind)
	require.Len(p, s.Blocks, 1)
	return s.Blocks[0].(*sheets.Table)
}

// same holds that two lists have the same things, as often as each other.
func same[T comparable](p *paper, want, have []T) {
	p.Helper()
	left := slices.Clone(have)
	var missing []T
	for _, w := range want {
		if i := slices.Index(left, w); i >= 0 {
			left = slices.Delete(left, i, i+1)
		} else {
			missing = append(missing, w)
		}
	}
	require.Empty(p, missing, "the plan has it, the sheet does not (of %d)", len(want))
	require.Empty(p, left, "the sheet has it, the plan does not")
}

// rows are the rows of a table as text: its group, then the columns that are
// asked for.
func rows(t *sheets.Table, columns ...string) (out []string) {
	for _, g := range t.Groups {
		for _, r := range g.Rows {
			said := []string{g.Title + g.Note}
			for _, name := range columns {
				i := slices.IndexFunc(t.Columns, func(c sheets.Column) bool { return c.Title == name })
				said = append(said, strings.TrimSpace(sheets.Words(r.Cells[i].Runs)+" / "+sheets.Words(r.Cells[i].Sub)))
			}
			out = append(out, strings.Join(said, " | "))
		}
	}
	return out
}

func cell(text, sub string) string { return strings.TrimSpace(text + " / " + sub) }

// out tells whether a job has a row for its taking out: it is left in the oven
// or on a ring for five minutes or more, and the dish does not go on there.
func (p *paper) out(j *timeline.Job) bool {
	last := j.Phases[len(j.Phases)-1]
	if j.Making == nil || last.Kind != resolve.Leave || last.End-last.Start < 5 || j.Oven == "" && j.Rings == 0 || j.Stays {
		return false
	}
	return !slices.ContainsFunc(p.Jobs, func(o *timeline.Job) bool { // whoever begins the next step then takes it off
		return slices.Contains(o.After, j) && o.Making == j.Making && o.Step != nil && o.Step != j.Step && len(o.Cooks) > 0 && o.Phases[0].Kind != resolve.Leave &&
			o.Start() >= j.End() && (o.Start() <= j.End()+2 || o.Start() < j.End()+5 && saysOff.MatchString(o.Step.Step.Line))
	})
}

var saysOff = regexp.MustCompile(`(?i)^(take|lift|turn|pull)\b( (off|out)\b|[^.;,]* (off|from) the (heat|ring|hob|fire)\b|[^.;,]* (out of|from) the oven\b)`)

// rowAt is when the row of a job stands: when it begins, or when somebody has a minute
// to put in what is only left.
func rowAt(j *timeline.Job) int {
	for _, x := range j.Puts {
		if x.Put == timeline.PutIn {
			return x.Start
		}
	}
	return j.Start()
}

// outAt is when and by whom what a job leaves is taken out.
func outAt(j *timeline.Job) (int, []string) {
	for _, x := range j.Puts {
		if x.Put == timeline.TakeOut && len(x.Cooks) > 0 {
			return x.End, x.Cooks
		}
	}
	return j.End(), nil
}

func outWords(j *timeline.Job) string {
	if j.Oven != "" {
		return "Take out of the oven"
	}
	return "Take off the ring"
}

// words is what a job says, with its putting in where nobody else does that.
func (p *paper) words(j *timeline.Job) string {
	stays := slices.ContainsFunc(p.Jobs, func(o *timeline.Job) bool {
		return o.Stays && slices.Contains(j.After, o) && o.Making == j.Making && o.Oven == j.Oven
	})
	if j.Oven != "" && j.Phases[0].Kind == resolve.Leave && j.Load < 2 && !stays {
		return "Put in: " + words(j)
	}
	return words(j)
}

// runSheet holds the run sheet against the plan. What stands folded in a row is taken out
// of it first: each look, each taking out and each turning off is wanted once, at its
// minute and by its cook.
func (p *paper) runSheet() {
	var want []string
	add := func(parts ...string) { want = append(want, strings.Join(parts, " | ")) }
	ends := map[string][]string{} // by time and words: when it may be over
	for _, j := range p.Jobs {
		at, who := rowAt(j), strings.Join(j.Cooks, ", ")
		add(p.dayTitle(p.day(at)), p.clock(at), cutOnly(p.words(j), dish(j)), dish(j), who)
		last := j.Phases[len(j.Phases)-1]
		key := p.clock(at) + cutOnly(p.words(j), dish(j))
		ends[key] = append(ends[key], p.clock(j.End()), p.clock(last.Start+last.Least))
		for _, t := range j.Touches {
			switch who := strings.Join(t.Cooks, ", "); {
			case t.Swap:
			case t.Text == "":
				add("look", p.dayTitle(p.day(t.Start)), p.clock(t.Start), dish(j), who)
			default:
				add(p.dayTitle(p.day(t.Start)), p.clock(t.Start), t.Text, dish(j), who)
			}
		}
		if p.out(j) {
			at, by := outAt(j)
			word := "off the ring"
			if j.Oven != "" {
				word = "out"
			}
			add(word, p.dayTitle(p.day(at)), p.clock(at), dish(j), strings.Join(by, ", "))
		}
	}
	for _, h := range p.Heats {
		what := verb(h) + " the oven to " + p.setting(h)
		add(p.dayTitle(p.day(h.Preheat)), p.clock(h.Preheat), what, "", strings.Join(h.By, ", "))
		if len(h.OffBy) > 0 {
			add("oven off", p.dayTitle(p.day(h.Off)), p.clock(h.Off), strings.Join(h.OffBy, ", "))
		}
		ends[p.clock(h.Preheat)+what] = append(ends[p.clock(h.Preheat)+what], p.clock(h.Start))
	}
	type course struct {
		at   int
		name string
	}
	names, cooks := map[course][]string{}, map[course][]string{}
	for _, s := range p.Servings {
		c := course{s.Served, s.Course}
		names[c] = append(names[c], strings.Split(s.Name, ", ")...)
		cooks[c] = append(cooks[c], s.By...)
	}
	for c, list := range names {
		add(p.dayTitle(p.day(c.at)), p.clock(c.at), "Serve: "+sorted(list), c.name, sorted(cooks[c]))
	}

	t := p.table(sheets.RunSheet)
	var have []string
	is := func(parts ...string) { have = append(have, strings.Join(parts, " | ")) }
	for _, g := range t.Groups {
		for _, r := range g.Rows {
			clock, what, who := sheets.Words(r.Cells[0].Runs), sheets.Words(r.Cells[2].Runs), sheets.Words(r.Cells[3].Runs)
			said := strings.Split(sheets.Words(r.Cells[2].Sub), " · ")
			if dishes, ok := strings.CutPrefix(what, "Serve: "); ok && r.Strong {
				is(g.Title, clock, "Serve: "+sorted(strings.Split(dishes, ", ")), said[0], sorted(strings.Split(who, ", ")))
				continue
			}
			of := p.unfold(said, p.Clock, func(word, clock, of, by string) {
				switch word {
				case "oven off":
					is(word, g.Title, clock, by)
				case "look":
					is(word, g.Title, clock, of, or(by, who))
				default:
					is(word, g.Title, clock, of, by)
				}
			})
			what = cutOnly(what, of)
			if what == "Turn off the oven" { // what it held went in on another day
				is("oven off", g.Title, clock, who)
				continue
			}
			// what happens on another day than it began has a row of that day
			if of, ok := strings.CutPrefix(what, "Take out of the oven: "); ok {
				is("out", g.Title, clock, of, who)
				continue
			}
			if of, ok := strings.CutPrefix(what, "Take off the ring: "); ok {
				is("off the ring", g.Title, clock, of, who)
				continue
			}
			if strings.HasPrefix(what, "See to it: ") {
				is("look", g.Title, clock, of, who)
				continue
			}
			is(g.Title, clock, what, of, who)
			times := moment.FindAllString(sheets.Words(r.Cells[5].Runs), -1)
			if len(ends[clock+what]) > 0 && !strings.Contains(what, " the oven to ") {
				require.NotEmpty(p, times, "%s %s has no end", clock, what)
			}
			require.Subset(p, ends[clock+what], times, clock+what)
		}
	}
	same(p, want, have)
	p.inTime(t)
}

const aMoment = `(?:\d\d:\d\d|T[−+]\d+:\d\d|T)`

// foldedIn is what a row says of what comes of it: when, and by whom if by another.
var foldedIn = regexp.MustCompile(`^(look|out|off the ring|oven off) ((?:every [^,]+, )?` + aMoment + `(?:(?:, | to )` + aMoment + `)*)(?: (.+))?$`)

// unfold tells what a row says comes of it, each thing by itself, and returns what it is
// the row of.
func (p *paper) unfold(said []string, clocked bool, each func(word, clock, of, by string)) (of string) {
	if foldedIn.FindString(said[0]) == "" {
		of, said = said[0], said[1:]
	}
	for _, s := range said {
		f := foldedIn.FindStringSubmatch(s)
		require.NotNil(p, f, "%q in the row of %q", s, of)
		times := []string{f[2]}
		if f[1] == "look" {
			times = p.looksIn(f[2], clocked)
		}
		for _, at := range times {
			each(f[1], at, of, f[3])
		}
	}
	return of
}

// looksIn are the minutes of "14:25, 15:10" or "every 15 min, 14:00 to 15:00".
func (p *paper) looksIn(text string, clocked bool) (out []string) {
	every, ok := strings.CutPrefix(text, "every ")
	if !ok {
		return strings.Split(text, ", ")
	}
	step, span, _ := strings.Cut(every, ", ")
	from, to, _ := strings.Cut(span, " to ")
	h, m, n := 0, 0, 0
	if k, _ := fmt.Sscanf(step, "%d h %d min", &h, &m); k == 2 || strings.HasSuffix(step, "h") {
		n = 60*h + m
	} else {
		fmt.Sscanf(step, "%d min", &n)
	}
	require.Positive(p, n, text)
	for at := minuteOf(from); ; at += n {
		clock := counted(at)
		if clocked {
			clock = fmt.Sprintf("%02d:%02d", at/60%24, at%60)
		}
		out = append(out, clock)
		if clock == to {
			return out
		}
		require.Less(p, len(out), 200, text)
	}
}

// weighed is an amount and a thing before its cut.
var weighed = regexp.MustCompile(`(\| )[\d½¼¾⅓⅔⅛][^|/]*?, `)

// prepWords is what a job says, of knife work with an amount how it is cut.
func (p *paper) prepWords(j *timeline.Job) string {
	if j.Kind == timeline.PrepJob && j.Line != nil && j.Line.Quantity != nil {
		return cutOnly(p.words(j), "x")
	}
	return p.words(j)
}

// cutOnly is of knife work how it is cut: the run sheet says how much of what.
func cutOnly(what, of string) string {
	if _, cut, ok := strings.Cut(what, ", "); ok && of != "" && !strings.Contains(of, ", step ") {
		return cut
	}
	return what
}

func or(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

func sorted(list []string) string {
	list = slices.Clone(list)
	slices.Sort(list)
	return strings.Join(slices.Compact(list), ", ")
}

var moment = regexp.MustCompile(`\d\d:\d\d|T[−+]\d+:\d\d|T$`)

// setting is a heat as it is printed.
func (p *paper) setting(h *timeline.Heat) string {
	practice := p.Meal.Menu.Practice
	if practice == "" && p.Meal.Kitchen != nil {
		practice = p.Meal.Kitchen.Practice
	}
	return timeline.Setting(h.Celsius, h.Fan, strings.HasPrefix(practice, "US"))
}

// inTime holds that the rows of a day are in order of time.
func (p *paper) inTime(t *sheets.Table) {
	for _, g := range t.Groups {
		last := -1 << 30
		for _, r := range g.Rows {
			at := minuteOf(sheets.Words(r.Cells[0].Runs))
			require.GreaterOrEqual(p, at, last, g.Title)
			last = at
		}
	}
}

// minuteOf reads a printed moment.
func minuteOf(text string) (n int) {
	h, m, sign := 0, 0, 1
	plain := strings.NewReplacer("T", "", "−", "-", "+", "").Replace(text)
	if strings.HasPrefix(plain, "-") {
		sign, plain = -1, plain[1:]
	}
	fmt.Sscanf(plain, "%d:%d", &h, &m)
	return sign * (h*60 + m)
}

func (p *paper) countdown() {
	zero := p.Servings[0].Served
	for _, s := range p.Servings {
		zero = min(zero, s.Served)
	}
	title := func(at int) string {
		d := p.day(at)
		days := func(n int) string {
			if n == 1 {
				return "1 day"
			}
			return fmt.Sprintf("%d days", n)
		}
		switch {
		case d == 0:
			return "The day"
		case d == -1:
			return "The day before" + "T−1 day"
		case d < 0:
			return fmt.Sprintf("%d days before", -d) + "T−" + days(-d)
		}
		return "The day after" + "T+" + days(d)
	}
	var want []string
	add := func(parts ...string) { want = append(want, strings.Join(parts, " | ")) }
	t0 := func(at int) string { return counted(at - zero) }
	for _, j := range p.Jobs {
		takes, sum := "", 0
		for i, ph := range j.Phases {
			sum += ph.End - ph.Start
			alone := ph.Kind == resolve.Leave
			if i+1 < len(j.Phases) && (j.Phases[i+1].Kind == resolve.Leave) == alone || sum == 0 {
				continue
			}
			if takes != "" {
				takes += ", then "
			}
			takes += length(sum)
			if alone {
				takes += " alone"
			}
			sum = 0
		}
		if strings.Count(takes, ", then ") == 1 {
			takes = strings.TrimSuffix(takes, " alone")
		}
		add(title(rowAt(j)), t0(rowAt(j)), cutOnly(p.words(j), dish(j)), dish(j), takes)
		for _, t := range j.Touches {
			switch {
			case t.Swap:
			case t.Text == "":
				add("look", t0(t.Start), dish(j))
			default:
				add(title(t.Start), t0(t.Start), t.Text, dish(j), "")
			}
		}
		if p.out(j) {
			at, _ := outAt(j)
			word := "off the ring"
			if j.Oven != "" {
				word = "out"
			}
			add(word, t0(at), dish(j))
		}
	}
	for _, h := range p.Heats {
		oven := h.Oven
		if !strings.HasSuffix(oven, "oven") {
			oven += " oven"
		}
		takes := ""
		if h.Start > h.Preheat {
			takes = length(h.Start - h.Preheat)
		}
		add(title(h.Preheat), t0(h.Preheat), verb(h)+" the "+oven, "", takes)
		if len(h.OffBy) > 0 {
			add("oven off", t0(h.Off))
		}
	}
	type course struct {
		at   int
		name string
	}
	names := map[course][]string{}
	for _, s := range p.Servings {
		c := course{s.Served, s.Course}
		names[c] = append(names[c], strings.Split(s.Name, ", ")...)
	}
	for c, list := range names {
		add(title(c.at), t0(c.at), "Serve: "+sorted(list), c.name, "")
	}

	t := p.table(sheets.Countdown)
	var have []string
	is := func(parts ...string) { have = append(have, strings.Join(parts, " | ")) }
	for _, g := range t.Groups {
		for _, r := range g.Rows {
			before, what, takes := sheets.Words(r.Cells[0].Runs), sheets.Words(r.Cells[3].Runs), sheets.Words(r.Cells[5].Runs)
			if daysLong.MatchString(takes) {
				takes = daysLong.ReplaceAllString(takes, "days$1")
			}
			said := strings.Split(sheets.Words(r.Cells[3].Sub), " · ")
			if dishes, ok := strings.CutPrefix(what, "Serve: "); ok && r.Strong {
				is(g.Title+g.Note, before, "Serve: "+sorted(strings.Split(dishes, ", ")), said[0], takes)
				continue
			}
			of := p.unfold(said, false, func(word, clock, of, _ string) {
				if word == "oven off" {
					is(word, clock)
				} else {
					is(word, clock, of)
				}
			})
			if strings.HasPrefix(what, "Turn off the ") {
				is("oven off", before)
				continue
			}
			is(g.Title+g.Note, before, cutOnly(what, of), of, takes)
		}
	}
	same(p, want, have)
	p.inTime(t)
}

var daysLong = regexp.MustCompile(`\d+ days.*?( alone)?$`)

// length is a length of time as it is printed; from two days on nobody counts
// the hours.
func length(n int) string {
	switch {
	case n >= 48*60:
		return "days"
	case n <= 0:
		return "0 min"
	case n < 60:
		return fmt.Sprintf("%d min", n)
	case n%60 == 0:
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d h %d min", n/60, n%60)
}

func (p *paper) byCook() {
	var want []string
	for _, cook := range p.Cooks {
		add := func(at int, what, sub, free string) {
			want = append(want, strings.Join([]string{cook + p.dayTitle(p.day(at)), cell(p.clock(at), ""), cell(what, sub), cell(free, "")}, " | "))
		}
		for _, j := range p.Jobs {
			if slices.Contains(j.Cooks, cook) {
				free := rowAt(j)
				for _, ph := range j.Phases {
					if slices.Contains(ph.Cooks, cook) {
						free = ph.End
					}
				}
				name := ""
				if j.Making != nil {
					name = j.Making.Recipe.Name
				}
				add(rowAt(j), p.prepWords(j), name, p.clock(free))
			}
			if at, who := outAt(j); p.out(j) && slices.Contains(who, cook) {
				add(at, outWords(j), dish(j), "")
			}
			for _, t := range j.Touches {
				if !t.Swap && slices.Contains(t.Cooks, cook) {
					add(t.Start, touchWords(j, t), dish(j), "")
				}
			}
		}
		for _, h := range p.Heats {
			if slices.Contains(h.By, cook) {
				add(h.Preheat, verb(h)+" the "+ovenIn(h.Oven)+" to "+p.setting(h), "", "")
			}
			if slices.Contains(h.OffBy, cook) {
				add(h.Off, "Turn off the "+ovenIn(h.Oven), "", "")
			}
		}
		for _, s := range p.Servings {
			if slices.Contains(s.By, cook) {
				add(s.Served, "Serve: "+s.Name, s.Course, "")
			}
		}
	}
	t := p.table(sheets.ByCook)
	have := rows(t, "Time", "What", "Hands free")
	for i, r := range have { // of knife work, how it is cut: how much of what is held by the figures
		have[i] = weighed.ReplaceAllString(r, "$1")
	}
	same(p, want, have)
	p.inTime(t)
}

// ovenOf is an oven's name as it heads its rows.
func ovenOf(name string) string {
	if !strings.HasSuffix(strings.ToLower(name), "oven") {
		name += " oven"
	}
	return strings.ToUpper(name[:1]) + name[1:]
}

// end is a moment as an end is printed, with its day if that is another one.
func (p *paper) end(start, end int) string {
	if from, to := p.day(start), p.day(end); p.Clock && from != to {
		date := p.Meal.Menu.Serve.AddDate(0, 0, to)
		if to-from >= 7 || from-to >= 7 {
			return date.Format("Mon 2 Jan ") + p.clock(end)
		}
		return date.Format("Mon ") + p.clock(end)
	}
	return p.clock(end)
}

func (p *paper) ovenDoor() {
	var want []string
	add := func(title string, in int, out, what, sub string) {
		want = append(want, strings.Join([]string{title + p.dayTitle(p.day(in)), cell(p.clock(in), ""), cell(out, ""), cell(what, sub)}, " | "))
	}
	for _, h := range p.Heats {
		add(ovenOf(h.Oven), h.Preheat, "", verb(h)+" the oven", "")
		if len(h.OffBy) > 0 {
			want = append(want, strings.Join([]string{ovenOf(h.Oven) + p.dayTitle(p.day(h.Off)), cell("", ""), cell(p.clock(h.Off), ""), cell("Turn off the oven", "")}, " | "))
		}
	}
	for _, j := range p.Jobs {
		if j.Oven != "" {
			in := j.Start()
			for _, ph := range j.Phases {
				if ph.Kind == resolve.Work {
					in = ph.End
				}
			}
			in = max(in, rowAt(j))
			add(ovenOf(j.Oven), in, p.end(in, j.End()), j.Making.Recipe.Name, words(j))
		}
		if j.Rings > 0 {
			title := "Rings"
			if k := p.Meal.Kitchen; k != nil && k.Rings > 0 {
				title = fmt.Sprintf("Rings, %d in all", k.Rings)
			}
			add(title, rowAt(j), p.end(j.Start(), j.End()), j.Making.Recipe.Name, words(j))
		}
	}
	if p.sheet(sheets.OvenDoor) == nil {
		require.Empty(p, want)
		return
	}
	same(p, want, rows(p.table(sheets.OvenDoor), "In, on", "Out, off", "What"))
}

// chart holds the chart against the plan: every phase of a job once, in the lane
// of its dish, with who does it; every look on it; every heat in the strip of its
// oven; and a flag for every serving.
func (p *paper) chart() {
	s := p.sheet(sheets.Timeline)
	require.NotNil(p, s)
	c := s.Blocks[0].(*sheets.Chart)
	type bar struct {
		Lane, Letter, Who  string
		Kind               sheets.BarKind
		Number, Start, End int
	}
	var want, have []bar
	said := map[string][]string{} // what a bar may say, by lane and start
	also := func(j *timeline.Job) string {
		if j.Making == nil {
			return "Tasks, washing up"
		}
		return j.Making.Recipe.Name
	}
	who := func(cooks []string) string {
		var out []string
		for _, c := range cooks {
			out = append(out, p.initials(c))
		}
		return strings.Join(out, " ")
	}
	for _, j := range p.Jobs {
		for _, ph := range j.Phases {
			if ph.End > ph.Start {
				want = append(want, bar{also(j), letterOf(j.Making), who(ph.Cooks), sheets.BarKind(ph.Kind), j.Number, ph.Start, ph.End})
				key := fmt.Sprint(also(j), ph.Start)
				said[key] = append(said[key], fractions.Replace(j.Title), ph.Place)
			}
		}
		for _, t := range j.Touches {
			want = append(want, bar{also(j), letterOf(j.Making), who(t.Cooks), sheets.WorkBar, j.Number, t.Start, max(t.End, t.Start+1)})
			key := fmt.Sprint(also(j), t.Start)
			said[key] = append(said[key], t.Text)
		}
	}
	heats := map[string]int{}
	for _, h := range p.Heats {
		if h.Preheat < h.Start {
			heats[fmt.Sprint(h.Preheat, " ", h.Start, " ", p.setting(h))]++
		}
	}
	flags := map[string]bool{}
	for _, s := range p.Servings {
		flags[fmt.Sprint(s.Served, s.Course)] = true
	}
	seen := map[string]bool{}
	for _, panel := range c.Panels {
		at := 1 << 30
		for d := -40; d < 10; d++ {
			if p.dayTitle(d) == panel.Title {
				at = d * 1440
				if d <= 0 && p.shown(-1) != -1 {
					at -= 60
				}
			}
		}
		require.Less(p, at, 1<<30, "whose day is %s?", panel.Title)
		if !p.Clock {
			at += 360 - 1440
			require.True(p, panel.Counts)
			require.Equal(p, 0, panel.Zero+at, "the first serving is T")
		}
		for _, lane := range panel.Lanes {
			for _, b := range lane.Bars {
				require.True(p, panel.Start <= b.Start && b.Start < b.End && b.End <= panel.End, "%+v of %s", b, panel.Title)
				require.Less(p, b.Row, lane.Rows)
				require.Equal(p, lane.Letter, b.Letter)
				start, end := b.Start+at, b.End+at
				for _, w := range want { // what goes on past the edge ends there
					if b.End == panel.End && w.Lane == lane.Name && w.Number == b.Number && w.Kind == b.Kind && w.Start == start && w.End > end {
						end = w.End
					}
				}
				have = append(have, bar{lane.Name, b.Letter, b.Who, b.Kind, b.Number, start, end})
				text := strings.ToLower(strings.TrimSuffix(b.Label, " ?"))
				require.True(p, text == "" || slices.ContainsFunc(said[fmt.Sprint(lane.Name, start)], func(s string) bool {
					return strings.HasPrefix(strings.ToLower(s), text)
				}), "%q of %s", b.Label, lane.Name)
				require.True(p, strings.HasPrefix(b.Label, b.Short), "%q and %q", b.Label, b.Short)
			}
		}
		for _, u := range panel.Uses {
			for _, b := range u.Bars {
				if b.Kind == sheets.HeatBar {
					heats[fmt.Sprint(b.Start+at, " ", b.End+at, " ", b.Label)]--
				}
			}
		}
		for _, f := range panel.Flags {
			key := fmt.Sprint(f.At+at, f.Label)
			require.False(p, seen[key], "the flag %s stands twice", key)
			seen[key] = true
		}
	}
	same(p, want, have)
	require.Equal(p, flags, seen)
	for key, n := range heats {
		require.Zero(p, n, "heating: %s", key)
	}
}

// initials are the shortest beginning of a cook's name, of two letters or more,
// that no other of the kitchen begins with.
func (p *paper) initials(cook string) string {
	all := p.Cooks
	for _, j := range p.Jobs {
		all = append(all[:len(all):len(all)], j.Cooks...)
	}
	for n := 2; n < len(cook); n++ {
		if !slices.ContainsFunc(all, func(o string) bool { return o != cook && strings.HasPrefix(o, cook[:n]) }) {
			return cook[:n]
		}
	}
	return cook
}

// prep holds the times on the sheets of the dishes against the plan.
func (p *paper) prep() {
	seen := 0
	for _, s := range p.doc.Sheets {
		if s.Kind != sheets.Prep {
			continue
		}
		for _, b := range s.Blocks {
			steps, ok := b.(*sheets.Steps)
			if !ok {
				continue
			}
			for _, it := range steps.Items {
				st, ok := it.(*sheets.Step)
				if !ok {
					continue
				}
				i := slices.IndexFunc(p.Jobs, func(j *timeline.Job) bool {
					return j.Making != nil && j.Making.Letter == s.Letter && j.Number == st.Number && j.Load < 2
				})
				require.GreaterOrEqual(p, i, 0, "%s, step %d is not in the plan", s.Title, st.Number)
				j := p.Jobs[i]
				require.Equal(p, p.end(0, rowAt(j)), st.Clock)
				require.Equal(p, strings.Join(j.Cooks, ", "), st.Who)
				var want, have []string
				for _, t := range j.Touches {
					if t.Text != "" && p.Clock {
						want = append(want, p.clock(t.Start))
					}
				}
				for _, m := range st.Moments {
					have = append(have, moment.FindAllString(m.At, -1)...)
				}
				same(p, want, have)
				seen++
			}
		}
	}
	require.NotZero(p, seen)
}

// orderOfWork holds the order of work of every handout against the plan of the
// meal.
func (p *paper) orderOfWork(name string) {
	for _, s := range p.doc.Sheets {
		if s.Kind != sheets.Crew {
			continue
		}
		for i, b := range s.Blocks {
			h, ok := b.(*sheets.Heading)
			if !ok || h.Text != "Order of work" {
				continue
			}
			t := s.Blocks[i+1].(*sheets.Table)
			if t.Columns[0].Title != "Time" {
				continue
			}
			var of []string
			for _, j := range p.Jobs {
				of = append(of, p.clock(rowAt(j))+" "+p.words(j), p.clock(rowAt(j))+" "+words(j))
			}
			for _, h := range p.Heats {
				of = append(of, p.clock(h.Preheat)+" "+verb(h)+" the oven to "+p.setting(h))
			}
			for _, g := range t.Groups {
				for _, r := range g.Rows {
					require.Contains(p, of, sheets.Words(r.Cells[0].Runs)+" "+sheets.Words(r.Cells[2].Runs), "%s: %s", name, s.Title)
				}
			}
		}
	}
}
