package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every start checks without any finding, hints too, however many eat and whatever was said.
func TestStartsCheckClean(t *testing.T) {
	for _, args := range [][]string{
		{"dish"},
		{"dish", "Plum dumplings", "--for", "2"},
		{"dish", "Soup, of leeks", "--for", "9"},
		{"menu"},
		{"menu", "Harbour breakfast", "--for", "12", "--on", "2027-05-02 09:30", "--cooks", "Nell, Omar"},
		{"menu", "Two", "--for", "2", "--on", "2027-05-02 20:00"},
		{"series"},
		{"series", "Spring class", "--for", "10", "--on", "2027-04-01 18:30"},
		{"book"},
		{"book", "The harbour book", "--for", "6"},
		{"dish", "寿司"},
		{"menu", "Обед", "--for", "8"},
		{"dish", "12 & Söhne"},
	} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			dir := t.TempDir()
			name := filepath.Join(dir, "start.tamis")
			var out, errOut bytes.Buffer
			require.Equal(t, exitClean, run(context.Background(), append(append([]string{"new"}, args...), "-o", name), strings.NewReader("never read"), &out, &errOut), errOut.String())
			out.Reset()
			errOut.Reset()
			require.Equal(t, exitClean, run(context.Background(), []string{"check", "--strict", name}, nil, &out, &errOut))
			require.Empty(t, errOut.String())
			require.Equal(t, exitClean, run(context.Background(), []string{"fmt", "-l", name}, nil, &out, &errOut))
			require.Empty(t, out.String())
			before, err := os.ReadFile(name)
			require.NoError(t, err)
			require.Contains(t, string(before), "# ")

			require.Equal(t, exitTrouble, run(context.Background(), []string{"new", "dish", "Other", "-o", name}, nil, &out, &errOut))
			after, err := os.ReadFile(name)
			require.NoError(t, err)
			require.Equal(t, string(before), string(after), "what is there is never written over")
		})
	}
}

// A second text in a folder uses the dishes and the kitchen that are there, and all of them
// together check clean.
func TestStartsInOneFolder(t *testing.T) {
	t.Chdir(t.TempDir())
	var out, errOut bytes.Buffer
	begin := func(args ...string) int {
		out.Reset()
		errOut.Reset()
		return run(context.Background(), append([]string{"new"}, args...), nil, &out, &errOut)
	}
	for _, args := range [][]string{{"dish"}, {"menu"}, {"menu", "Monday supper"}, {"series"}, {"book"}, {"dish", "A warm start"}} {
		require.Equal(t, exitClean, begin(args...), errOut.String())
	}
	require.Equal(t, exitClean, begin("menu", "Third", "-o", "third.tamis"))
	require.Contains(t, errOut.String(), "Home, Leek soup, Rhubarb compote: there already")
	text, err := os.ReadFile("third.tamis")
	require.NoError(t, err)
	require.NotContains(t, string(text), "kitchen Home")
	require.NotContains(t, string(text), "# Who cooks", "its comment goes with it")
	require.Contains(t, string(text), "  at Home\n")

	require.Equal(t, exitTrouble, begin("dish", "leek  soup", "-o", "other.tamis"))
	require.Contains(t, errOut.String(), "already: name another")
	require.NoFileExists(t, "other.tamis")
	require.Equal(t, exitClean, run(context.Background(), []string{"check", "--strict", "."}, nil, &out, &errOut), out.String())
	require.Equal(t, exitClean, run(context.Background(), []string{"fmt", "-l", "."}, nil, &out, &errOut))
}

// Four questions at most; an empty answer takes the usual, and no more answers end it.
func TestQuestions(t *testing.T) {
	for _, kind := range startKinds() {
		var o start
		require.LessOrEqual(t, len(questions(kind, &o)), 4)
	}
	o := start{For: "3"}
	var out bytes.Buffer
	ask(strings.NewReader("Sunday\n\n"), &out, questions("menu", &o))
	require.Equal(t, "Sunday", o.Title)
	require.Equal(t, "3", o.For, "what was said is not asked")
	require.Empty(t, o.On)
	require.Equal(t, 3, strings.Count(out.String(), "?"), out.String())
}
