package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// cafe is a day with two meals, four hours apart; by hand, the leeks of the lunch are cut by
// 11:45, and those of the breakfast by 07:15.
func cafe() string {
	return `kitchen K
  cooks A, B
  rings 4
  clears 10 min, after each course
menu M
  covers 12
  on the table 2027-05-02 08:00
  at K
  hours on the day, 06:00 to 14:00
  course Breakfast
    Hash
  course Lunch, at 12:30
    Soup
` + writtenDish("Hash", "    1 kg leeks, sliced | work 10 min\n", "hot, within 10 min", "Fry the leeks. | ring low | work 20 min") +
		writtenDish("Soup", "    1 kg leeks, sliced | work 10 min\n    1 kg potatoes, diced | work 15 min\n", "hot, within 10 min", "Simmer the leeks and potatoes. | ring low | work 5 min | leave 25 min")
}

// Each meal of a day has boards of its own: those of the lunch are clear before the lunch,
// and knife work between the two meals is none in service. The breakfast is cleared when it is
// eaten, not before the lunch.
func TestMealsOfADay(t *testing.T) {
	line := plannedText(t, cafe())
	require.NotContains(t, line.Note, "In service")
	for _, j := range line.Jobs {
		if j.Line == nil {
			continue
		}
		shut := at(7, 15)
		if j.Making.Recipe.Name == "Soup" {
			shut = at(11, 45)
			require.Greater(t, j.Start(), at(8, 0), "not while the breakfast goes out")
		}
		require.LessOrEqual(t, j.End(), shut, "%s of %s", j.Title, j.Making.Recipe.Name)
	}
	clear := job(line, t, "Clear Breakfast")
	require.GreaterOrEqual(t, clear.Start(), at(8, 0))
	require.LessOrEqual(t, clear.Start(), at(9, 0))
}

// A course a while after another is of the same meal, and its table is cleared just before.
func TestCoursesOfOneMeal(t *testing.T) {
	line := plannedText(t, strings.Replace(cafe(), "at 12:30", "at 09:30", 1))
	for _, j := range line.Jobs {
		if j.Line != nil {
			require.LessOrEqual(t, j.End(), at(7, 15), "%s of %s", j.Title, j.Making.Recipe.Name)
		}
	}
	require.GreaterOrEqual(t, job(line, t, "Clear Breakfast").Start(), at(9, 5))
}

// A table that is laid stands so: where nobody is free in the hours before, it is laid when
// somebody is. By hand: B comes at eleven, and fries for the last twenty minutes; A is there
// till eight, four hours before.
func TestTablesAreLaidWhenThereIsTime(t *testing.T) {
	line := plannedText(t, writtenMenu("  cooks A, B\n  rings 4\n",
		"  hours on the day, 06:00 to 08:00, A\n  hours on the day, 11:00 to 14:00, B\n  task Put out the chairs, work 30 min, before Main\n  course Main\n    Stew\n",
		writtenDish("Stew", "    1 kg leeks\n", "hot, within 5 min", "Fry the leeks. | ring low | work 20 min")))
	require.LessOrEqual(t, job(line, t, "Put out the chairs").End(), at(8, 0))
	require.Zero(t, line.Late)
}
