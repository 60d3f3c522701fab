package build_test

import (
	"bytes"
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/planner"
	"tamis/render/plantext"
)

// line is a line of the terminal: when, until, who, whose, what.
type line struct {
	at   int
	who  string
	text string        // with single spaces, to the first dot
	job  *timeline.Job // of a line that is a job's
}

// lines are those that the terminal should have of a plan.
func (p *paper) lines() (out []line) {
	add := func(at int, job *timeline.Job, until string, who []string, mark, what string) {
		names := strings.Join(who, ", ")
		text := strings.Join(strings.Fields(strings.Join([]string{p.clock(at), until, names, mark, what}, " ")), " ")
		out = append(out, line{at, names, text, job})
	}
	for _, j := range p.Jobs {
		what, mark := fractions.Replace(j.Title), letterOf(j.Making)
		if j.Kind == timeline.PrepJob {
			what = "Prepare " + what
		}
		if j.Number > 0 {
			mark += fmt.Sprint(j.Number)
		}
		until := "to " + p.clock(j.End())
		if day, _, ok := strings.Cut(p.end(j.Start(), j.End()), p.clock(j.End())); ok {
			until += " " + day
		}
		add(rowAt(j), j, until, j.Cooks, mark, what)
		if p.out(j) {
			at, who := outAt(j)
			off := outWords(j)
			add(at, nil, "", who, mark, fractions.Replace(j.Title)+": "+strings.ToLower(off[:1])+off[1:])
		}
		for _, t := range j.Touches {
			if !t.Swap {
				text := t.Text
				if text == "" {
					text = "see to it"
				}
				add(t.Start, nil, "", t.Cooks, mark, fractions.Replace(j.Title)+": "+text)
			}
		}
	}
	for _, h := range p.Heats {
		if len(h.OffBy) > 0 {
			add(h.Off, nil, "", h.OffBy, "", "Turn off the "+ovenIn(h.Oven))
		}
		add(h.Preheat, nil, "", h.By, "", verb(h)+" the "+ovenIn(h.Oven)+" to "+p.setting(h)+", for "+p.clock(h.Start))
	}
	for _, s := range p.Servings {
		what := "Serve " + s.Name
		if s.Served > s.At {
			what += ", " + length(s.Served-s.At) + " late"
		}
		add(s.Served, nil, "", s.By, letterOf(s.Making), what)
	}
	return out
}

// ovenIn is an oven's name in a sentence.
func ovenIn(name string) string {
	if strings.Contains(strings.ToLower(name), "oven") {
		return name
	}
	return name + " oven"
}

// said is a job as the answers name it.
func said(j *timeline.Job) string {
	what, mark := fractions.Replace(j.Title), letterOf(j.Making)
	if j.Kind == timeline.PrepJob {
		what = "Prepare " + what
	}
	switch {
	case j.Number > 0:
		return fmt.Sprintf("%s (%s%d)", what, mark, j.Number)
	case mark != "":
		return fmt.Sprintf("%s (%s)", what, mark)
	}
	return what
}

var lineStart = regexp.MustCompile(`^[ •] (?:\d\d:\d\d|T[−+]\d+:\d\d|T)(?:  | *$)`)

// linesOf are the lines of a text that the terminal shows, and what stands
// behind the first dot of each.
func linesOf(text string) (out, more []string) {
	for _, l := range strings.Split(text, "\n") {
		if lineStart.MatchString(l) {
			what, rest, _ := strings.Cut(strings.TrimPrefix(l, "•"), " · ")
			out, more = append(out, strings.Join(strings.Fields(what), " ")), append(more, rest)
		}
	}
	return out, more
}

func texts(lines []line) (out []string) {
	for _, l := range lines {
		out = append(out, l.text)
	}
	return out
}

// terminal holds the run sheet of `tamis plan` against the plan, and its order
// against that of the run sheet on paper.
func (p *paper) terminal() {
	want := p.lines()
	have, _ := linesOf(plantext.RunSheet(events.Of(p.Timeline), 1))
	same(p, texts(want), have)
	var paper, terminal []string
	for _, r := range rows(p.table(sheets.RunSheet), "Time", "Who", "What") {
		cells := strings.Split(r, " | ")
		if !strings.HasPrefix(cells[3], "Serve: ") { // a course is one row on paper
			paper = append(paper, cells[1]+cells[2])
		}
	}
	for _, h := range have {
		l := want[slices.IndexFunc(want, func(l line) bool { return l.text == h })]
		terminal = append(terminal, cell(p.clock(l.at), "")+cell(l.who, ""))
	}
	// the terminal has a row for what paper folds into that of its job
	for _, row := range terminal {
		if len(paper) > 0 && paper[0] == row {
			paper = paper[1:]
		}
	}
	require.Empty(p, paper, "when and who, in order")
}

// atMoments holds `--at` against the plan, at every minute at which a job of it
// begins and the one before.
func (p *paper) atMoments() {
	var moments []int
	for _, j := range p.Jobs {
		moments = append(moments, j.Start(), j.Start()-1)
	}
	slices.Sort(moments)
	l := events.Of(p.Timeline)
	for _, at := range slices.Compact(moments) {
		var b bytes.Buffer
		require.NoError(p, plantext.WriteMoment(&b, l, events.Moment(at)))
		have, name := map[string][]string{}, ""
		now, next, _ := strings.Cut(b.String(), "\nIn the next")
		row := regexp.MustCompile(`^  (\S.*?)?\s{2,}(\S.*)$`)
		for _, text := range strings.Split(now, "\n")[2:] {
			if m := row.FindStringSubmatch(text); m != nil {
				if m[1] != "" {
					name = m[1]
				}
				have[name] = append(have[name], strings.Split(m[2], "; ")...)
			}
		}
		require.Equal(p, p.clock(at), moment.FindString(regexp.MustCompile(`^.*?\d{4}[^:]*, `).ReplaceAllString(b.String(), "")), b.String())
		p.held(at, have, b.String())
		var soon []line
		for _, w := range p.lines() {
			if at < w.at && w.at <= at+30 {
				soon = append(soon, w)
			}
		}
		lines, _ := linesOf(next)
		same(p, texts(soon), lines)
	}
}

// held compares the rows of a moment: what each cook does, what is where.
func (p *paper) held(at int, have map[string][]string, text string) {
	want := map[string][]string{}
	on := func(name string, from, to int, what string, end string) {
		if from <= at && at < to {
			want[name] = append(want[name], what+", until "+end)
		}
	}
	for _, j := range p.Jobs {
		in, busy := j.Start(), said(j)
		for _, ph := range j.Phases {
			what := busy
			if ph.Kind == resolve.Watch {
				what = "watches " + busy
			}
			for _, c := range ph.Cooks {
				on(c, ph.Start, ph.End, what, p.clock(ph.End))
			}
			if ph.Kind == resolve.Work {
				in = ph.End
			}
			if ph.Kind == resolve.Leave && j.Oven == "" && j.Rings == 0 {
				if ph.Place != "" {
					what += ", " + ph.Place
				}
				on("left alone", ph.Start, ph.End, what, p.end(at, ph.End))
			}
		}
		for _, t := range j.Touches {
			what := "sees to " + busy
			switch {
			case t.Text != "":
				what = busy + ": " + t.Text
			case t.Swap:
				what = busy
			}
			for _, c := range t.Cooks {
				on(c, t.Start, t.End, what, p.clock(t.End))
			}
		}
		for _, x := range j.Puts {
			what := busy
			if x.Put == timeline.TakeOut {
				if what = strings.ToLower(outWords(j)[:1]) + outWords(j)[1:] + ": " + busy; !p.out(j) {
					continue
				}
			}
			for _, c := range x.Cooks {
				on(c, x.Start, x.Start+1, what, p.clock(x.Start+1))
			}
		}
		in = max(in, rowAt(j))
		if j.Oven != "" {
			on(ovenIn(j.Oven), in, j.End(), busy, p.end(at, j.End()))
		}
		if j.Rings > 0 {
			what := busy
			if s := j.Step.Step; s.Level != "" {
				what += ", " + s.Level
			}
			if j.Vessel != "" {
				what += ", " + j.Vessel
			}
			on("rings", rowAt(j), j.End(), what, p.clock(j.End()))
		}
		if to := j.End() + j.Waits; j.End() <= at && at < to {
			want["ready"] = append(want["ready"], busy+", wanted at "+p.end(at, to))
		}
	}
	for name, rows := range have {
		var said []string
		for _, r := range rows {
			if slices.Contains(p.Cooks, name) && regexp.MustCompile(`^(free|gone|not there)\b`).MatchString(r) {
				require.Empty(p, want[name], "%s at %d\n%s", name, at, text)
				if strings.HasPrefix(r, "free until ") {
					require.Contains(p, p.nexts(name, at), r)
				}
				continue
			}
			if i := strings.Index(r, ": "); strings.Contains(r[:max(i, 0)], "°") || strings.HasPrefix(r, "off: ") {
				r = r[i+2:] // the heat
			}
			if r != "off" && r != "empty" {
				said = append(said, r)
			}
		}
		same(p, want[name], said)
	}
	for name := range want {
		require.Contains(p, have, name, text)
	}
}

// nexts are what may be said of a free cook: the earliest work after a moment,
// of several at that minute any.
func (p *paper) nexts(cook string, at int) (out []string) {
	next := 1 << 30
	see := func(from int, cooks []string, j *timeline.Job, off ...string) {
		if from <= at || from > next || !slices.Contains(cooks, cook) {
			return
		}
		if from < next {
			next, out = from, nil
		}
		out = append(out, "free until "+p.clock(from)+", then "+strings.Join(off, "")+said(j))
	}
	for _, j := range p.Jobs {
		for _, ph := range j.Phases {
			see(ph.Start, ph.Cooks, j)
		}
		for _, t := range j.Touches {
			see(t.Start, t.Cooks, j)
		}
		for _, x := range j.Puts {
			switch {
			case x.Put == timeline.PutIn:
				see(x.Start, x.Cooks, j)
			case p.out(j):
				see(x.Start, x.Cooks, j, strings.ToLower(outWords(j)[:1])+outWords(j)[1:]+": ")
			}
		}
	}
	return out
}

// afterDelay holds `--late` against the plan that is made again: of the job
// that has most time to spare, ten minutes late at most.
func (p *paper) afterDelay() {
	late := slices.MaxFunc(p.Jobs, func(a, b *timeline.Job) int { return a.Slack - b.Slack })
	by := max(2, min(10, late.Slack))
	r := planner.Replan(context.Background(), p.Timeline, late, by)
	if r == nil || r.Timeline == nil {
		return
	}
	l := events.Of(p.Timeline)
	var b bytes.Buffer
	require.NoError(p, plantext.WriteLate(&b, l, l.RestOf(r)))
	head := fmt.Sprintf("%s ends at %s instead of %s, %s late.\n", said(late), p.end(late.End(), late.End()+by), p.clock(late.End()), length(by))
	require.Equal(p, head, b.String()[:min(len(head), b.Len())])
	after := &paper{T: p.T, Timeline: r.Timeline}
	var want []string
	for _, w := range after.lines() {
		if w.at < late.End() && (w.job == nil || w.job.End() <= late.End()) {
			continue
		}
		for _, m := range r.Moved {
			if m.Job == w.job {
				w.text += " was " + p.end(w.at, m.Was)
			}
		}
		if w.job != nil && w.job == r.Job {
			w.text += " longer " + length(by)
		}
		want = append(want, w.text)
	}
	have, more := linesOf(b.String())
	for i, m := range more {
		for _, note := range strings.Split(m, " · ") {
			if strings.HasPrefix(note, "was ") {
				have[i] += " " + note
			}
			if by, ok := strings.CutSuffix(note, " longer"); ok {
				have[i] += " longer " + by
			}
		}
	}
	same(p, want, have)
}
