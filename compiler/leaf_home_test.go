package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/sheets"
)

// towers is a series whose leaves have to say when a thing is done and where it waits.
const towers = `series Towers
  equipment large stockpot of 8 litres, 24 skewers
  part 1 Pickle
    date 2027-06-01
    shows Pickle
    shows Brine
  part 2 Towers
    date 2027-06-15
    shows Towers
larder
  units metric
base Brine
  makes 1 litre
  whole batches
  keeps 3 weeks, fridge
  gather
    1 litre water
    40 g    salt
  method
    - Boil the water with the salt. | ring high | in stockpot | work 5 min | leave 10 min
dish Pickle
  serves 4
  gather
    500 g turnips
    400 ml brine
  method
    - Pack the turnips into jars and pour over the brine. | in 2 jars | work 5 min
    - Let it stand. | stand 1 day, cool place
    pause up to 2 days, room
    - Close and chill. | work 2 min | stand 5 days, up to 3 weeks, fridge
  serve cold
dish Towers
  serves 4
  equipment 12 skewers, saucepan
  gather
    500 g turnips
    200 ml brine                     | made in part 1
  method
    - Simmer the turnips in the brine. | ring low | in saucepan | work 5 min | leave 20 min
    - Thread them on skewers. | in jar | work 10 min | done 2 h before serving
  serve cold
menu Fair
  covers 4
  on the table 2027-06-15 13:00
  course Main
    Pickle
    Towers
`

// The leaf says in sentences what is done ahead, in the order of the steps; names each thing
// that is needed once, by its fuller name and the larger number; and has what the clock says
// elsewhere. A time that food must stand is not one that it keeps.
func TestALeafSaysWhatIsDoneAhead(t *testing.T) {
	docs := handouts(t, towers, sheets.Leaf)
	one, two := strings.Join(inLines(docs[0].Sheets[0]), "\n"), strings.Join(inLines(docs[1].Sheets[0]), "\n")
	require.Contains(t, one, "# Ahead of time\n"+strings.Join([]string{
		"- Pickle: Step 2 waits 1 day, in a cool place. After step 2 it may wait up to 2 days, at room temperature. Step 3 waits 5 days, up to 3 weeks, in the fridge.",
		"- Brine: It keeps 3 weeks, in the fridge.",
	}, "\n")+"\n")
	require.Contains(t, one, "# What you need\n- Large stockpot of 8 litres, 24 skewers, 2 jars.\n")
	require.Contains(t, two, "# What you need\n- Large stockpot of 8 litres, 24 skewers, saucepan, jar.\n")
	require.Contains(t, two, "done 2 h before serving")
	require.Contains(t, one, "- Pickle, for Fair, part 2; keeps 3 weeks, fridge")
	require.NotContains(t, one, "keeps 5 days")
}

// The countdown names what is left of a part on its last day, and nothing that is used up.
func TestTheCountdownNamesWhatIsLeft(t *testing.T) {
	run := func(text string) string {
		for _, s := range handouts(t, text, sheets.Series)[0].Sheets {
			if s.ID == "run-up" {
				return strings.Join(inLines(s), "\n")
			}
		}
		return ""
	}
	require.Contains(t, run(towers), "\n | Use by today: 400 ml brine left of part 1 |")
	require.NotContains(t, run(strings.Replace(towers, "200 ml brine                     ", "600 ml brine ", 1)), "Use by today")
}
