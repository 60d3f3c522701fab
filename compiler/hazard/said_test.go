package hazard

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What a sentence keeps out of the cold, and for how long at the least; common practice, no source.
func TestWhatASentenceKeeps(t *testing.T) {
	day := 24 * time.Hour
	for text, want := range map[string]time.Duration{
		"pour into a jar and keep on a shelf by the stove":                                            someWeek,
		"let it stand on the counter for a month":                                                     30 * day,
		"pack under the fat and keep in the cellar till christmas":                                    aSeason,
		"leave them in their foil on the counter for tomorrow's salad":                                aNight,
		"put the pan out on the back step until the morning":                                          aNight,
		"it keeps in its tin in the larder till monday":                                               someDays,
		"it stands on the table for six hours":                                                        6 * time.Hour,
		"keep in the fridge till monday":                                                              0,
		"do not leave on the counter overnight":                                                       0,
		"put the ribs near the fire until the outside is set, and leave on the side until it is done": 0,
		"leave on the table until they are soft":                                                      0,
		"leave on the table until they are back":                                                      someHours,
		"keep warm on the stove until tomorrow":                                                       0,
		"leave on the counter":                                                                        0,
		"put the dish on the table and serve":                                                         0,
		"stand the tin on the shelf. the sauce is made in the morning":                                0,
		"leave to cool on the side, then into the fridge for two days":                                0,
		"keep the oven shut; set the table for christmas dinner":                                      0,
	} {
		st := &Stage{text: text, said: len(text), first: begins(text)}
		s, ok := st.SaidStay()
		require.Equal(t, want > 0, ok, text)
		require.InDelta(t, want.Hours(), s.Time.Hours(), 24*1.5, text)
	}
}
