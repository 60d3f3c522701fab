package plan

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"reflect"
	"slices"
	"sync"
)

// Memory keeps what came of problems, so that one that is put again, to the letter, is not
// solved again: a kitchen's plan does not change with a word of its recipes, nor with the
// sheets that are printed of it. It may be asked from several goroutines. A nil Memory keeps
// nothing.
type Memory struct {
	mu     sync.Mutex
	known  map[[sha256.Size]byte]Outcome
	order  [][sha256.Size]byte // as they came
	solved int                 // not known
}

// mostKept is how many outcomes are kept, each of some kilobytes; the eldest goes first.
const mostKept = 512

// Solve is [Solve], or what came of it before.
func (m *Memory) Solve(ctx context.Context, p *Problem, b Budget) (Outcome, error) {
	if m == nil || b.Progress != nil {
		return Solve(ctx, p, b)
	}
	key := sha256.Sum256(written(written(nil, reflect.ValueOf(p)), reflect.ValueOf(b)))
	m.mu.Lock()
	out, ok := m.known[key]
	if !ok {
		m.solved++
	}
	m.mu.Unlock()
	if ok {
		return out.clone(), nil
	}
	out, err := Solve(ctx, p, b)
	if err != nil || ctx.Err() != nil { // stopped: perhaps not the best
		return out, err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.known == nil {
		m.known = map[[sha256.Size]byte]Outcome{}
	}
	if _, ok := m.known[key]; !ok {
		m.order = append(m.order, key)
	}
	m.known[key] = out.clone()
	if len(m.order) > mostKept {
		delete(m.known, m.order[0])
		m.order = m.order[1:]
	}
	return out, nil
}

// written appends a value, each part behind how long it is, so that no two values are written
// alike.
func written(out []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.Bool:
		if v.Bool() {
			return append(out, 1)
		}
		return append(out, 0)
	case reflect.Int:
		return binary.AppendVarint(out, v.Int())
	case reflect.Uint8, reflect.Uint64:
		return binary.AppendUvarint(out, v.Uint())
	case reflect.String:
		return append(binary.AppendUvarint(out, uint64(v.Len())), v.String()...)
	case reflect.Pointer:
		if v.IsNil() {
			return append(out, 0)
		}
		return written(append(out, 1), v.Elem())
	case reflect.Slice:
		out = binary.AppendUvarint(out, uint64(v.Len()))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			out = written(out, v.Index(i))
		}
		return out
	case reflect.Struct:
		for i := range v.NumField() {
			out = written(out, v.Field(i))
		}
		return out
	case reflect.Func: // who is told of progress makes no difference; nobody is
		return out
	}
	panic("plan: a " + v.Kind().String() + " is not written down")
}

// Solved is how many problems were not known, and solved.
func (m *Memory) Solved() int {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.solved
}

// clone is an outcome that shares nothing with o.
func (o Outcome) clone() Outcome {
	if o.Solution != nil {
		s := *o.Solution
		s.Options, s.States, s.Tasks = slices.Clone(s.Options), slices.Clone(s.States), slices.Clone(s.Tasks)
		for i, t := range s.Tasks {
			s.Tasks[i].Members, s.Tasks[i].Settings = slices.Clone(t.Members), slices.Clone(t.Settings)
		}
		o.Solution = &s
	}
	if o.Conflict != nil {
		c := *o.Conflict
		c.Activities, c.Resources, c.Lags, c.Dues, c.Branches = slices.Clone(c.Activities), slices.Clone(c.Resources), slices.Clone(c.Lags), slices.Clone(c.Dues), slices.Clone(c.Branches)
		o.Conflict = &c
	}
	return o
}
