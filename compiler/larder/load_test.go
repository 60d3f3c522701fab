package larder

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

func builtinFiles(t testing.TB) fs.FS {
	f, err := fs.Sub(embedded, "data")
	require.NoError(t, err)
	return f
}

// small is a larder of two ingredients, to be spoilt line by line.
func small() fstest.MapFS {
	m := fstest.MapFS{}
	for name, text := range map[string]string{
		"sources.csv":                 "key,title\npractice,\"common practice, no source\"\n",
		"counters.csv":                "counter\ngreengrocer\n",
		"words.csv":                   "list,word\npart,leaf\nverb,butter\nstate,cooked\n",
		"flags.csv":                   "flag,group,meaning,implies,source\nmeat,diet,flesh,,practice\nraw meat,risk,raw,meat,practice\n",
		"groups.csv":                  "practice,number,name,source,ref,verified,note\nEU / UK,1,celery,practice,point 9,seen in source,\n",
		"substances.csv":              "name,other,outside Europe,EU/UK,US,CA,AU\ncelery,celeriac,,celery,,,\n",
		"ingredients/greengrocer.csv": "name,plural,other,cupboard,flags,contains,source,allergens from,verified,in sentences\ncelery,=,,,,celery,practice,practice,from memory,\nonion,,brown onion,,,none,practice,practice,from memory,\n",
		"density.csv":                 "name,form,usual,grams,measure,source,ref,verified,note\nonion,chopped,usual,80,1/2 US cup,practice,,from memory,\n",
		"pieces.csv":                  "name,part,size,practice,usual,grams,basis,source,ref,verified,note\nonion,,medium,,usual,110 to 130,trimmed,practice,,from memory,\n",
		"yields.csv":                  "name,state,practice,usual,percent,source,ref,verified,note\nonion,,,usual,90,practice,,from memory,\n",
		"packs.csv":                   "name,uk,us,source\nonion,1 kg bag / 4 each net,,practice\n",
		"classes.csv":                 "class,names,source\nvegetable,celery,practice\n",
		"gives.csv":                   "name,per,amount,unit,gives,source,ref,verified,note\ncelery,,10,leaf,celery,practice,,from memory,\n",
		"keeping.csv":                 "what,names,days,source,ref,verified,note\ncounter,greengrocer,5,practice,,from memory,\nclass,vegetable,4,practice,,from memory,\nthing,onion,14,practice,,from memory,\n",
	} {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

func TestLoadReadsEveryColumn(t *testing.T) {
	table, err := Load(small())
	require.NoError(t, err)
	onion, ok := table.Find("Brown  onions")
	require.True(t, ok)
	require.Equal(t, "onions", onion.Plural)
	require.Equal(t, "greengrocer", onion.Counter)
	d, ok := onion.Density("")
	require.True(t, ok)
	require.InDelta(t, 160/236.5882365, d.GPerML.Value.Float(), 1e-9)
	p, ok := onion.PieceGrams("")
	require.True(t, ok)
	require.Equal(t, "120", p.Grams.Value.String())
	require.Equal(t, "110", p.Range.Low.String())
	require.Len(t, onion.Packs, 2)
	require.Equal(t, "1000", onion.Packs[0].Amount.String())
	require.Equal(t, Pack{Amount: onion.Packs[1].Amount, Unit: "each", Container: "net", Region: "UK", Source: onion.Source}, onion.Packs[1])
	celery, _ := table.Find("celery")
	require.Equal(t, 14, onion.Keeps.Value)
	require.Equal(t, 4, celery.Keeps.Value, "a class holds against a counter")
	require.Equal(t, "celery", celery.Plural)
	require.Equal(t, []Content{{Substance: "celery"}}, celery.Contains)
	require.Equal(t, "celery", table.Regulate("UK", celery.Contains)[0].Group)
	require.Empty(t, table.Regulate("US", celery.Contains))
}

func TestLoadSaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct{ file, old, new, said string }{
		{"ingredients/greengrocer.csv", "onion,,brown onion", "onion,,Celery", `ingredients/greengrocer.csv:3: "Celery" already means celery`},
		{"ingredients/greengrocer.csv", "onion,,brown onion", "onion,,onions", `"onions" already means onion`},
		{"ingredients/greengrocer.csv", "none,practice", "nuts,practice", `"nuts" is not in substances.csv`},
		{"ingredients/greengrocer.csv", "none,practice", ",practice", "contains is empty"},
		{"ingredients/greengrocer.csv", "none,practice", "none,hearsay", `"hearsay" is not in sources.csv`},
		{"ingredients/greengrocer.csv", "brown onion,,", "brown onion,yes,", `cupboard must be "cupboard" or empty`},
		{"ingredients/greengrocer.csv", "brown onion,,,", "brown onion,,fizz,", `"fizz" is not in flags.csv`},
		{"ingredients/greengrocer.csv", "onion,,brown", "onion,, brown", `blanks around " brown onion"`},
		{"ingredients/greengrocer.csv", "name,", "nom,", "the header must be name,plural"},
		{"ingredients/greengrocer.csv", ",from memory,\nonion", ",from memory,,\nonion", "wrong number of fields"},
		{"counters.csv", "greengrocer", "butcher", `"greengrocer" is not in counters.csv`},
		{"density.csv", ",80,", ",-80,", `"-80" is not a positive number`},
		{"density.csv", ",80,", ",1e3,", `"1e3" is not a positive number`},
		{"density.csv", "US cup", "cup", `"1/2 cup" is not a measure`},
		{"density.csv", "1/2 US cup", " ", `" " is not a measure`},
		{"density.csv", "1/2 US", "1/0 US", "is not a positive number"},
		{"density.csv", "onion,chopped", "brown onion,chopped", `"brown onion" is not the main name of an ingredient`},
		{"density.csv", "from memory", "trust me", `verified must be "seen in source" or "from memory"`},
		{"pieces.csv", "trimmed", "net", "basis must be trimmed or bought"},
		{"pieces.csv", "110 to 130", "110 to", "is not a positive number"},
		{"yields.csv", ",90,", ",110,", "a yield is above 0 and at most 100"},
		{"packs.csv", "1 kg bag", "bag", `"bag" is not a pack`},
		{"packs.csv", "1 kg bag", "1 lb bag", "a pack is in g, kg, ml, litre or each"},
		{"classes.csv", "vegetable,celery", "vegetable,leek", `"leek" is not the main name of an ingredient`},
		{"gives.csv", "leaf,celery", "leaf,parsley", `"parsley" is not the main name of an ingredient`},
		{"gives.csv", "leaf", "lump", "unit must be each, g, ml or a part word"},
		{"keeping.csv", "thing,onion", "thing,leek", `no ingredient is meant by "leek"`},
		{"keeping.csv", "class,vegetable", "kind,vegetable", "what must be counter, flag, class or thing"},
		{"keeping.csv", ",14,", ",1/2,", "days must be whole"},
		{"groups.csv", ",1,celery", ",2,celery", "the groups of EU must be numbered from 1"},
		{"substances.csv", "celeriac,,celery", "celeriac,,celeries", `has no group "celeries"`},
		{"substances.csv", "celery,celeriac", "celery,Celery", `"Celery" names two substances`},
		{"flags.csv", "raw,meat", "raw,flesh", `flag "flesh" must stand above`},
		{"words.csv", "verb", "verbs", "list must be part, scrap, verb, state, plain, leave, change, quiet or spelling"},
		{"sources.csv", "practice,\"", "practice,x\npractice,\"", `source "practice" stands twice`},
		{"sources.csv", "practice,\"", "hearsay,\"", `"practice" is not in sources.csv`},
		{"sources.csv", "key,title", "0", "the header must be key,title"},
		{"density.csv", "onion,chopped,usual,80", "onion,,usual,70,US cup,practice,,from memory,\nonion,chopped,usual,80", "two lines are marked usual"},
		{"density.csv", "onion,chopped,usual,80", "onion,chopped,,70,US cup,practice,,from memory,\nonion,chopped,usual,80", `stands twice`},
	} {
		files := small()
		text := string(files[c.file].Data)
		require.Contains(t, text, c.old, c.file)
		files[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, c.old, c.new, 1))}
		_, err := Load(files)
		require.ErrorContains(t, err, c.said, "%s: %s", c.file, c.new)
	}
	_, err := Load(fstest.MapFS{})
	require.ErrorContains(t, err, "sources.csv")
}

func FuzzLoad(f *testing.F) {
	for name, file := range small() {
		f.Add(name, string(file.Data))
	}
	f.Fuzz(func(t *testing.T, name, text string) {
		files := small()
		if files[name] == nil {
			return
		}
		files[name] = &fstest.MapFile{Data: []byte(text)}
		_, _ = Load(files) // must come back, whatever is in the file
	})
}

func BenchmarkLoad(b *testing.B) {
	files := builtinFiles(b)
	for b.Loop() {
		if _, err := Load(files); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFind(b *testing.B) {
	t := Builtin()
	for b.Loop() {
		t.Find("Extra-virgin olive oil")
	}
}
