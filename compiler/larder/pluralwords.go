package larder

import "strings"

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// fToVes are nouns in -f and -fe that change to -ves. Those of four letters or
// more also change at the end of a longer word (meatloaf, cloverleaf).
var fToVes = strings.Fields("leaf loaf knife half calf shelf sheaf wolf hoof scarf elf wife life thief self")

func vesOf(f string) string {
	return strings.TrimSuffix(strings.TrimSuffix(f, "e"), "f") + "ves"
}

// irregular lists one and many where no rule gives them.
var irregular = []struct{ one, many string }{
	{"goose", "geese"},
	{"mongoose", "mongooses"},
	{"foot", "feet"},
	{"tooth", "teeth"},
	{"child", "children"},
	{"ox", "oxen"},
	{"mouse", "mice"},
	{"man", "men"},
	{"woman", "women"},
	{"chilli", "chillies"},
	{"chili", "chilies"},
	{"quiz", "quizzes"},
	{"bus", "buses"},
	{"gas", "gases"},
	{"axe", "axes"},
	{"choi", "chois"},
	{"lens", "lenses"},
	{"haggis", "haggises"},
	{"iris", "irises"},
	{"trellis", "trellises"},
	{"canvas", "canvases"},
	{"atlas", "atlases"},
	{"taco", "tacos"},
	{"bordeaux", "bordeaux"},
}

var irregularOne, irregularMany = func() (one, many map[string]string) {
	one, many = map[string]string{}, map[string]string{}
	for _, w := range irregular {
		one[w.many], many[w.one] = w.one, w.many
	}
	for _, f := range fToVes {
		one[vesOf(f)], many[f] = f, vesOf(f)
	}
	return one, many
}()

// unchanging words have one form, whether they end in s or not. "Potatos" and
// "tomatos" are no words: they are left alone, so that the writer is asked.
var unchanging = set(`asparagus couscous hummus houmous molasses schnapps swiss brussels watercress cress
	coulis cassis pastis clafoutis chablis hachis anis maquis chassis species series tapas calvados
	madras christmas cos jus ras bas gros mars texas clothes greens scissors tongs
	sheep fish shellfish salmon trout cod haddock plaice halibut mackerel tuna squid venison grouse bream
	roux pois frais potatos tomatos hake bass turbot pollock whiting pike perch monkfish
	broccoli broccolini okra kale spinach rice pasta`)

// endsInS are singular words in -s with no rule of their own; their plural is -es.
var endsInS = set(`basis oasis ibis tennis mantis pelvis marquis pancreas cosmos biceps
	amaryllis clematis ambergris verdigris`)

// pluralInUs are plurals of nouns in -u; every other word in -us is singular.
var pluralInUs = set("menus yuzus tofus pilaus ragus tiramisus emus gnus thous tutus")

// keepsE are nouns in -ie, -che, -she, -sse, -xe, -oe and -use, whose plural
// only adds s.
var keepsE = set(`cookie brownie smoothie veggie foodie goodie pixie zombie rookie birdie prairie calorie
	sweetie toastie sarnie hoagie freebie movie genie brie patisserie pâtisserie rotisserie brasserie
	boulangerie rôtisserie charcuterie menagerie sortie coterie reverie magpie potpie pie bookie pinkie blondie
	whoopie eerie laddie collie townie organdie cutie junkie
	quiche brioche ganache ceviche seviche tranche niche cache moustache mustache panache avalanche pastiche
	pistache cartouche louche douche remoulache ache headache quenouche galoche
	mousse wrasse demitasse bouillabaisse crevasse impasse finesse posse fosse lacrosse noblesse fricasse
	sloe aloe canoe oboe shoe toe roe doe hoe foe floe throe mistletoe tiptoe horseshoe
	fuse muse ruse excuse recluse use luxe deluxe`)

// takesOes are nouns in -o whose plural is -oes; the others only add s.
var takesOes = set("potato tomato mango hero echo torpedo mosquito buffalo domino volcano tornado cargo")

// hardCh are nouns in -ch that only add s.
var hardCh = set("stomach loch monarch patriarch epoch")
