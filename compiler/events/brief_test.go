package events_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
)

func TestBrief(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Whisk the dressing", "Whisk the dressing"},
		{"Boil the green beans in salted water until barely tender", "Boil the green beans in salted water"},
		{"Strain into shallow pans and stand them in iced water until cold", "Strain into shallow pans"},
		{"Rub the butter into the flour until it looks like coarse sand", "Rub the butter into the flour"},
		{"Pull the meat from the bones in large pieces into shallow trays", "Pull the meat from the bones"},
		{"Get the iron pan very hot and char the blanched beans in batches", "Get the iron pan very hot"},
		{"Toss the cucumbers with the salt in a colander and leave them to weep", "Toss the cucumbers with the salt"},
		{"Turn them over. Scrape the tin and baste with what runs out", "Turn them over"},
		{"Taste, cover and chill until very cold, then put the bowls beside it", "Taste, cover and chill"},
		{"Stir in the roasted golden onions of yesterday", "Stir in the roasted golden onions"},
		{"Rub the lamb with the salt and some black pepper and brown it on all sides…", "Rub the lamb with the salt"},
		{"Turn them over and scrape the whole roasting tin", "Turn them over"},
		{"Pour into a wide sieve that is lined with wet muslin", "Pour into a wide sieve"},
		{"Spoon into the small tins greased with soft butter", "Spoon into the small tins"},
		{"Serve on the big plates that were warmed in the oven", "Serve on the big plates"},
		{"Fork through the pilaf all the flaked and salted almonds", "Fork through the pilaf"},
		{"Share the dumplings and the greens among the bowls", "Share the dumplings and the greens"},
		{"Bake.", "Bake"},
		{"", ""},
	} {
		require.Equal(t, c.want, events.Brief(c.text, 36), c.text)
	}
	for _, c := range []struct{ text, want string }{
		{"Toast the sunflower seeds and pumpkin seeds in a dry pan", "Toast the sunflower seeds"},
		{"Brush with the caper butter and stack in a cloth", "Brush with the caper butter"},
		{"Wash the spiral mixer after White tin loaf", "Wash the spiral mixer"},
		{"Stir in the soft chickpeas from the freezer", "Stir in the soft chickpeas"},
		{"Cover and let it double", "Cover and let it double"},
		{"Joint the chicken on to shallow trays", "Joint the chicken"},
		{"Heat them through in their own damp", "Heat them through"},
		{"Prove until the dough stands a finger above the rim", "Prove"},
		{"Scale into pieces of 540 g and round them up", "Scale into pieces"},
	} {
		require.Equal(t, c.want, events.Brief(c.text, 18), "no name is parted: %s", c.text)
	}
	require.Equal(t, "Hochrippenstückchen", events.Brief("Hochrippenstückchen braten", 10), "a first word stays whole")
}

// Whatever is cut: whole words of the text from its beginning, little more than
// asked for, and no word at the end that leads to another.
func TestBriefIsTheBeginning(t *testing.T) {
	for _, text := range []string{
		"Cover tightly and cook in the oven until the meat slips from the bone",
		"Pour the hot syrup over the plums, scatter the crumble on top and bake",
		"Add the onions, the carrots and the celery and let them colour for a while",
		"Lift the fat off in one piece and keep it for the potatoes",
	} {
		for most := 12; most < 80; most++ {
			got := events.Brief(text, most)
			require.LessOrEqual(t, len(got), most+12, got)
			require.True(t, strings.HasPrefix(text, got), "%q of %q", got, text)
			rest := text[len(got):]
			require.True(t, rest == "" || strings.ContainsAny(rest[:1], " ,"), "%q breaks a word of %q", got, text)
			for _, w := range []string{" the", " and", " a", " until", " of", ","} {
				require.False(t, strings.HasSuffix(got, w), "%q ends in the middle", got)
			}
		}
	}
}
