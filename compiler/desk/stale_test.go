package desk

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// What a plan found in a dish goes when the menu it was planned for does: no later plan
// takes it back.
func TestFindingsOfAPlanGoWithIt(t *testing.T) {
	e := newEditor(t, nil)
	e.open("d.tamis", "dish Leeks\n  serves 4\n  gather\n    800 g leeks\n  method\n    - Soak the leeks. | work 2 min | stand 7 h, room\n    - Soften the leeks. | ring low | work 10 min\n  serve hot\n")
	e.open("m.tamis", "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  at Boat\n  hours on the day, 17:00 to 20:00\n  course Main\n    Leeks\n\nkitchen Boat\n  cooks Nell\n  rings 2\n")
	stands := func() bool { return slices.Contains(codes(e.found["d.tamis"].Diagnostics), "P202") }
	for !stands() {
		e.next()
	}
	e.edit("m.tamis", "  on the table 2027-05-02 19:00\n", "")
	for i := 0; i < 20 && stands(); i++ {
		e.findings("d.tamis")
	}
	require.False(t, stands(), "nobody plans for a time any more")
}
