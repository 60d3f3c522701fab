package problem

import (
	"slices"
	"time"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// of names washing up for a message.
func (w *Wash) of() string {
	switch {
	case w.Tool != "":
		return "washing the " + w.Tool
	case w.Mk != nil:
		return "washing up after " + w.Mk.M.Recipe.Name
	case w.Up.When == resolve.WashBefore:
		return "washing up before serving"
	}
	return "washing up, every " + timeline.SpanWords(FloorMinutes(w.Up.Every))
}

// FloorMinutes is a time in whole minutes, rounded down.
func FloorMinutes(t time.Duration) int { return int(t / time.Minute) }

// Without leaves one washing up until after; the rounds all together.
func (s WashSet) Without(w *Wash) WashSet {
	if w.Up.When == resolve.WashEvery {
		s.Off = append(slices.Clone(s.Off), resolve.WashEvery)
		return s
	}
	s.Left = append(slices.Clone(s.Left), w.Key())
	return s
}

// WashSet is what a plan does about washing up. The zero value is all that the
// kitchen asks for, but for the rounds of `every`, which wait for a plan that
// shows when there is work.
type WashSet struct {
	None   bool               // all of it is left until after
	Off    []resolve.WashWhen // kinds that are left until after
	Left   []Key              // single ones that are
	Later  bool               // what is not begun yet is
	Rounds []Round
}

// Wash says what a job of washing up is for.
type Wash struct {
	Up   *resolve.WashUp // nil for a tool
	Mk   *Making         // of `after each dish`
	N    int             // which of a dish's, of the rounds, or of a tool's
	Tool string          // its name
}

func (w *Wash) Key() Key {
	k := Key{kind: timeline.WashJob, Title: w.Tool, n: w.N}
	if w.Up != nil {
		k.Title = string(w.Up.When)
	}
	if w.Mk != nil {
		k.Making = w.Mk.M
	}
	return k
}

// Round is a stretch of work with its washing up.
type Round struct {
	Work  []WorkKey
	Count int // how often it is washed up in it
	Day   int // of its beginning
	Every int // minutes of work without it at most: a job that is longer is done first
}

// AfterWash is washing up that is left until after serving.
type AfterWash struct {
	Title, Asked string
	Minutes      int
	Set          []int // the cooks who may
}

// WorkKey is a phase of a job in which hands are wanted.
type WorkKey struct {
	Key   Key
	Phase int
}

// EveryLine is the line of washing up `every` so often that a plan keeps; nil
// when there is none, or it is left until after.
func (d *Draft) EveryLine() *resolve.WashUp {
	k := d.Meal.Kitchen
	if k == nil || d.Set.Wash.None || d.Set.Wash.Later || slices.Contains(d.Set.Wash.Off, resolve.WashEvery) {
		return nil
	}
	for i := range k.WashUps {
		if k.WashUps[i].When == resolve.WashEvery {
			return &k.WashUps[i]
		}
	}
	return nil
}
