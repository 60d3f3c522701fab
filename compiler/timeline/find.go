package timeline

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tamis/compiler/larder"
	"tamis/lang/diag"
)

// Find finds the job that a cook means: "B3" (the letter and the number on the
// sheets), "Slow lamb 3", "Slow lamb, step 3", or words of the step, with or
// without its dish. The error says what could have been meant.
func (t *Timeline) Find(text string) (*Job, error) {
	words := wordsOf(text)
	if len(words) == 0 {
		return nil, errors.New("which step? Name it as the sheets do: `B3`, `Slow lamb 3`, or a few words of it")
	}
	if j, err := t.numbered(words); j != nil || err != nil {
		return j, err
	}
	var found []*Job
	for _, j := range t.Jobs {
		if containsAll(j.searchWords(), words) {
			found = append(found, j)
		}
	}
	// One that begins with the words, or is called by them, is meant before one that has them somewhere.
	for _, narrow := range []func(*Job) bool{
		func(j *Job) bool {
			return slices.Equal(wordsOf(j.Say()), words) || slices.Equal(wordsOf(j.LineWords()), words)
		},
		func(j *Job) bool {
			return startsWith(wordsOf(j.LineWords()), words) || startsWith(wordsOf(j.Title), words)
		},
	} {
		if len(found) < 2 {
			break
		}
		var some []*Job
		for _, j := range found {
			if narrow(j) {
				some = append(some, j)
			}
		}
		if len(some) > 0 {
			found = some
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, t.notFound(text, words)
	}
	return nil, fmt.Errorf("%q could be %s", text, choices(found))
}

// StepNames lists what Find takes, each with a few words on it, for
// completions: "B3", "Heap the meat on hot dishes…".
func (t *Timeline) StepNames() (out [][2]string) {
	for _, j := range t.Jobs {
		if j.Number > 0 {
			name := j.Mark()
			if j.Load > 1 {
				name += fmt.Sprintf(" load %d", j.Load)
			}
			out = append(out, [2]string{name, j.LineWords() + ", " + j.Making.Recipe.Name})
		}
	}
	slices.SortFunc(out, func(a, b [2]string) int {
		return cmp.Or(cmp.Compare(len(a[0]), len(b[0])), cmp.Compare(a[0], b[0]))
	})
	return out
}

// numbered reads a letter or a dish with a number. Both results are nil where
// the words are something else.
func (t *Timeline) numbered(words []string) (*Job, error) {
	load := 0
	for n := len(words) - 1; n > 0 && load == 0; n-- { // "B3 load 2", "B3, load 2 of 3"
		if k, err := strconv.Atoi(words[n]); err == nil && words[n-1] == "load" && n > 1 {
			load, words = k, words[:n-1]
		}
	}
	last := words[len(words)-1]
	cut := strings.IndexFunc(last, unicode.IsDigit)
	if cut < 0 {
		return nil, nil
	}
	n, err := strconv.Atoi(last[cut:])
	if err != nil {
		return nil, nil
	}
	dish := slices.Clone(words[:len(words)-1])
	if cut > 0 { // B3
		dish = append(dish, last[:cut])
	}
	if k := len(dish) - 1; k > 0 && dish[k] == "step" {
		dish = dish[:k]
	}
	var of []*Job
	for _, j := range t.Jobs {
		if j.Number > 0 && j.calledBy(dish) {
			if j.Number == n && (load == j.Load || load == 0 && j.Load == 1) {
				return j, nil
			}
			of = append(of, j)
		}
	}
	if len(of) == 0 {
		return nil, t.nearDish(strings.Join(dish, " "), n)
	}
	most := 0
	for _, j := range of {
		most = max(most, j.Number)
		if j.Number == n {
			if j.Load == 0 {
				return nil, fmt.Errorf("%s is done in one go, not in loads", j.Mark())
			}
			return nil, fmt.Errorf("%s has %s, so there is no load %d of it", j.Mark(), Counted(j.Loads, "load", "loads"), load)
		}
	}
	return nil, fmt.Errorf("%s has %s, so there is no step %d in it", of[0].Making.Recipe.Name, Counted(most, "step", "steps"), n)
}

// nearDish asks whether a dish of nearly that name was meant; nil when there is
// none.
func (t *Timeline) nearDish(name string, n int) error {
	var names []string
	for _, j := range t.Jobs {
		if j.Number > 0 && j.Number == n {
			names = append(names, strings.Join(wordsOf(j.Making.Recipe.Name), " "))
		}
	}
	near := diag.Nearest(name, names)
	for _, j := range t.Jobs {
		if near != "" && j.Number > 0 && j.Number == n && strings.Join(wordsOf(j.Making.Recipe.Name), " ") == near {
			return fmt.Errorf("no dish is called %q: did you mean %s?", name, choices([]*Job{j}))
		}
	}
	return nil
}

// calledBy tells whether words are the letter or the name of a job's dish.
func (j *Job) calledBy(dish []string) bool {
	m := j.Making
	if m == nil || len(dish) == 0 {
		return false
	}
	if len(dish) == 1 && dish[0] == strings.ToLower(m.Letter) {
		return true
	}
	if s := m.Serving; s != nil && slices.Equal(wordsOf(s.Name), dish) {
		return true
	}
	return slices.Equal(wordsOf(m.Recipe.Name), dish)
}

// notFound says what is nearest.
func (t *Timeline) notFound(text string, words []string) error {
	var near []*Job
	best := 0
	for _, j := range t.Jobs {
		n, have := 0, j.searchWords()
		for _, w := range words {
			if slices.Contains(have, w) {
				n += 3
			} else if diag.Nearest(w, have) != "" {
				n += 2
			}
		}
		switch {
		case n > best:
			near, best = []*Job{j}, n
		case n == best:
			near = append(near, j)
		}
	}
	if best < 2*(len(words)+1)/2 || len(near) == 0 {
		return fmt.Errorf("no step is called %q: name it as the sheets do, `B3` or `Slow lamb 3`, or by its first words", text)
	}
	return fmt.Errorf("no step is called %q: did you mean %s?", text, choices(near))
}

// choices lists jobs as one may write them, a few of them.
func choices(jobs []*Job) string {
	var out []string
	for i, j := range jobs {
		if i == 4 && len(jobs) > 5 {
			out = append(out, fmt.Sprintf("%d more", len(jobs)-i))
			break
		}
		name := j.Mark()
		if j.Number == 0 {
			name = strings.TrimSpace(j.Say())
			if j.Making != nil {
				name += ", " + j.Making.Recipe.Name
			}
			out = append(out, "`"+name+"`")
			continue
		}
		out = append(out, fmt.Sprintf("`%s` (%s)", name, j.LineWords()))
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " or " + out[len(out)-1]
}

// searchWords are the words a job may be found by.
func (j *Job) searchWords() []string {
	text := j.Say() + " " + j.LineWords()
	if j.Step != nil {
		text += " " + j.Step.Step.Prose.Text
	}
	if m := j.Making; m != nil {
		text += " " + m.Recipe.Name
		if m.Serving != nil {
			text += " " + m.Serving.Name
		}
	}
	return wordsOf(text)
}

// wordsOf are the words of a text, folded.
func wordsOf(text string) []string {
	out := strings.FieldsFunc(text, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '’'
	})
	for i, w := range out {
		out[i] = larder.Fold(w)
	}
	return out
}

func containsAll(have, want []string) bool {
	return !slices.ContainsFunc(want, func(w string) bool { return !slices.Contains(have, w) })
}

func startsWith(have, want []string) bool {
	return len(have) >= len(want) && slices.Equal(have[:len(want)], want)
}
