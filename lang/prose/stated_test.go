package prose_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tamis/lang/prose"
)

// What a passage says of time is offered with the words people say it in, and two times one
// behind the other are two steps. Common practice, no source.
func TestTimesAsTheyAreSaid(t *testing.T) {
	for text, want := range map[string]string{
		"Let them simmer very gently until tender, which will be in from 3 to 4 hours, according to the pears.": "ring low ? | leave 3 to 4 h ?",
		"Cook it until tender; it will be ready in about half an hour.":                                         "ring medium ? | leave about 30 min ?",
		"Place the jar in boiling water; keep it simmering for from three to four hours.":                       "leave 3 to 4 h ?",
		"Set the jar in a slow oven for three hours, or until the fruit is soft.":                               "oven slow ? | leave 3 h ?",
		"Set the oven to 180 C and bake for 20 minutes.":                                                        "oven 180 C ? | leave 20 min ?",
		"Boil about an hour & a quarter till they give.":                                                        "ring high ? | leave about 1 h 15 min ?",
		"Bake at 190C for 45'.":                                                           "oven 190 C ? | leave 45 min ?",
		"Boil for 10′ or so, then for 5’ more.":                                           "ring high ? | leave about 10 min ? / leave 5 min ?",
		"Use an 8' length of string.":                                                     "",
		"They call it 'soup in 45' and it is.":                                            "",
		"Chill at least 4 hours, better overnight.":                                       "stand at least 4 h, fridge ?",
		"Let stand 30 minutes or, better, overnight.":                                     "leave 30 min ?",
		"Simmer for 2 hours, 3 hours for an old bird.":                                    "ring low ? | leave 2 h ?",
		"Brown it in a casserole, a quarter of an hour altogether.":                       "ring medium ? | watch 15 min ?",
		"Brown it for 5 minutes, then bake, two hours altogether.":                        "ring medium ? | watch 5 min ?",
		"Mix 4 min slow, 6 min fast.":                                                     "work 4 min ? / leave 6 min ?",
		"Bake blind at 190 C for 15 minutes, then a further 5 minutes without the beans.": "oven 190 C ? | leave 15 min ? / leave 5 min ?",
		"Boil hard for ten minutes, after which simmer for an hour.":                      "ring high ? | leave 10 min ? / leave 1 h ?",
		"Simmer 40 minutes, stirring every 10 minutes.":                                   "ring low ? | leave 40 min ?",
		"It should be ready in about 2 hours.":                                            "",
		"Shape and leave overnight (12-14 h).":                                            "leave 12 to 14 h ?",
		"Cure 18hrs, flip @ 9hrs.":                                                        "leave 18 h ?",
		"Pour in and cook for another quarter of an hour.":                                "ring medium ? | watch 15 min ?",
		"Bake 25 minutes with the lid on and 20 minutes without.":                         "leave 25 min ? / leave 20 min ?",
		"Leave it ten minutes before you cut into it.":                                    "leave 10 min ?",
		"Allow to rest for 10 minutes before slicing.":                                    "rest 10 min ?",
		"Allow 20 minutes for this.":                                                      "",
		"Rest 10m.":                                                                       "rest 10 min ?",
		"Cut off 2 m of string.":                                                          "",
		"Serve within 10 minutes.":                                                        "",
		"Roll it out, chill, blind bake at 190 C for 25 minutes.":                         "oven 190 C ? | leave 25 min ?",
		"Chill, bake blind for 25 minutes.":                                               "leave 25 min ?",
		"Line the tin, blind-bake for 20 minutes.":                                        "leave 20 min ?",
		"Rub in, bring together, rest min 1 hr.":                                          "rest 1 h ?",
		"Chop the onions, stir-fry for 3 minutes.":                                        "ring high ? | watch 3 min ?",
		"Heat the oven to 220 C. Bake for 10 minutes. Bake at 150 fan for 35 minutes.":    "oven 220 C ? | leave 10 min ? / oven fan 150 C ? | leave 35 min ?",
		"Heat the oven to 220 C. Bake for 10 minutes. Bake at 160 for 35 minutes.":        "oven 220 C ? | leave 10 min ? / leave 35 min ?",
		"Heat the oven to 220 C. Bake at 220 for 35 minutes.":                             "oven 220 C ? | leave 35 min ?",
		"My sister has made it for 3 years.":                                              "",
		"Boil the vinegar, water, sugar, salt and mustard seeds for 1 min.":               "ring high ? | leave 1 min ?",
		"Use in 3 days.": "",
		"Keep the sauce in a jar for three weeks.": "",
	} {
		var got []string
		parts, _ := prose.Parts(text, nil)
		for _, p := range parts {
			if p.Margin != "" {
				got = append(got, p.Margin)
			}
		}
		assert.Equal(t, want, strings.Join(got, " / "), text)
	}
}
