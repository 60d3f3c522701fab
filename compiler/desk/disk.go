package desk

import (
	"context"

	"tamis/compiler/load"
)

// What changes on the disk behind the editor's back is taken in when a text is opened,
// saved or closed, and when the editor tells of it.

// manyEntries is how much may lie below a folder that is looked through while the editor
// waits; a larger one is looked through beside the conversation, and taken in then.
const manyEntries = 1000

// listed is what lies in a room, as it was when it had been read so many times.
type listed struct {
	room  *room
	reads int
	load.Listing
}

// refresh takes in what has changed on the disk. Open texts stay as they are.
func (s *server) refresh(r *room) {
	switch {
	case r.dir == "" || r.tree == nil:
	case !r.large:
		r.take(s.ctx, load.Scan(s.ctx, r.dir, r.narrow))
	case r.scanning:
		r.again = true
	default:
		r.scanning, r.again = true, false
		l, dir, narrow := listed{room: r, reads: r.reads}, r.dir, r.narrow
		go func() {
			l.Listing = load.Scan(s.ctx, dir, narrow)
			select {
			case s.lists <- l:
			case <-s.ctx.Done():
			}
		}()
	}
}

// listed takes in what was found beside the conversation, unless the room was read whole
// in the meantime: then it is older than what is known.
func (s *server) listed(l listed) {
	r := l.room
	r.scanning = false
	if l.reads == r.reads {
		r.take(s.ctx, l.Listing)
	} else {
		r.again = true
	}
	if r.again {
		s.refresh(r)
	}
}

// lies puts down what lies in the room.
func (r *room) lies(l load.Listing) {
	r.seen, r.narrow, r.large = l.Files, l.Narrow, l.Entries > manyEntries
}

// take takes in what has changed since the room was looked through last.
func (r *room) take(ctx context.Context, l load.Listing) {
	if r.tree == nil {
		return // it is read whole when it is wanted
	}
	texts := map[string]*string{}
	for path, now := range l.Files {
		if was, ok := r.seen[path]; (!ok || was != now) && r.open[path] == nil {
			texts[path] = r.onDisk(path)
		}
	}
	for path := range r.seen {
		if _, ok := l.Files[path]; !ok && r.open[path] == nil {
			texts[path] = nil
		}
	}
	r.lies(l)
	if r.loose && !r.narrow && len(l.Files) > 0 {
		r.tree = nil
		r.changed, r.now, r.index = true, nil, nil
		return
	}
	r.change(ctx, texts)
}
