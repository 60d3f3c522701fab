package prose

import "strings"

// Kind is what somebody does while a thing is done.
type Kind int

// The kinds, in the order they stand in within a step.
const (
	noKind Kind = iota
	Work        // hands are busy
	Watch       // somebody stays by
	Leave       // nobody is needed
)

// Device is where the heat comes from, or the cold.
type Device int

// The devices.
const (
	NoDevice Device = iota
	Ring
	Grill
	Oven
)

// verb is what a cook's word means by itself.
type verb struct {
	kind   Kind
	device Device
	level  string // of a ring
	place  string
	word   string // of the clause that offers its time, where it is not its kind's
	pan    bool   // the device is meant only with a pan, a fire or a temperature
	short  bool   // watched when it is short, left when it is long
}

// What is watched and what is left: constantly stirred, fried, toasted, reduced
// is watched; simmered, baked, risen, chilled is left; beaten and kneaded is
// work. The levels of a ring are common practice, no source.
var verbs = map[string]verb{
	"boil": {kind: Leave, device: Ring, level: "high"}, "parboil": {kind: Leave, device: Ring, level: "high"}, "hard-boil": {kind: Leave, device: Ring, level: "high"}, "soft-boil": {kind: Leave, device: Ring, level: "high"}, "blanch": {kind: Leave, device: Ring, level: "high"},
	"bubble": {kind: Leave, device: Ring, level: "high"}, "simmer": {kind: Leave, device: Ring, level: "low"}, "poach": {kind: Leave, device: Ring, level: "low"},
	"stew": {kind: Leave, device: Ring, level: "low"}, "braise": {kind: Leave, device: Ring, level: "low"}, "steam": {kind: Leave, device: Ring, level: "medium"},
	"seethe": {kind: Leave, device: Ring, level: "low"}, "coddle": {kind: Leave, device: Ring, level: "low"},

	"fry": {kind: Watch, device: Ring, level: "medium"}, "sauté": {kind: Watch, device: Ring, level: "medium"}, "saute": {kind: Watch, device: Ring, level: "medium"},
	"brown": {kind: Watch, device: Ring, level: "medium"}, "caramelise": {kind: Watch, device: Ring, level: "medium"}, "caramelize": {kind: Watch, device: Ring, level: "medium"},
	"sweat": {kind: Watch, device: Ring, level: "low"}, "soften": {kind: Watch, device: Ring, level: "low", pan: true}, "scramble": {kind: Watch, device: Ring, level: "low"},
	"sear": {kind: Watch, device: Ring, level: "high"}, "reduce": {kind: Watch, device: Ring, level: "high"}, "griddle": {kind: Watch, device: Ring, level: "high"},
	"char": {kind: Watch, device: Ring, level: "high", pan: true}, "toast": {kind: Watch, device: Ring, level: "medium", pan: true},
	"cook": {kind: Watch, device: Ring, level: "medium", short: true}, "melt": {kind: Watch, device: Ring, level: "low", pan: true},
	"warm": {kind: Watch, device: Ring, level: "low", pan: true}, "heat": {kind: Watch, device: Ring, level: "medium", pan: true}, "reheat": {kind: Watch, device: Ring, level: "medium", pan: true},

	"grill": {kind: Watch, device: Grill}, "broil": {kind: Watch, device: Grill},
	"bake": {kind: Leave, device: Oven}, "roast": {kind: Leave, device: Oven},

	"chill": {kind: Leave, place: "fridge"}, "refrigerate": {kind: Leave, place: "fridge"}, "freeze": {kind: Leave, place: "freezer"},
	"rest": {kind: Leave, word: "rest"}, "thaw": {kind: Leave, word: "thaw"}, "defrost": {kind: Leave, word: "thaw"},
	"leave": {kind: Leave}, "let": {kind: Leave}, "allow": {kind: Leave}, "stand": {kind: Leave}, "rise": {kind: Leave}, "prove": {kind: Leave}, "proof": {kind: Leave},
	"ferment": {kind: Leave}, "marinate": {kind: Leave}, "marinade": {kind: Leave}, "soak": {kind: Leave}, "steep": {kind: Leave}, "infuse": {kind: Leave}, "cool": {kind: Leave},
	"set": {kind: Leave}, "drain": {kind: Leave}, "drip": {kind: Leave}, "hang": {kind: Leave}, "cure": {kind: Leave}, "salt": {kind: Leave}, "brine": {kind: Leave},
	"press": {kind: Leave}, "pickle": {kind: Leave}, "dry": {kind: Leave}, "mature": {kind: Leave}, "sit": {kind: Leave}, "macerate": {kind: Leave}, "smoke": {kind: Leave},
	"microwave": {kind: Leave}, "put": {kind: Leave}, "place": {kind: Leave}, "slide": {kind: Leave}, "return": {kind: Leave}, "transfer": {kind: Leave}, "pop": {kind: Leave},
	"keep": {kind: Leave}, "lay": {kind: Leave}, "cover": {kind: Leave}, "weight": {kind: Leave}, "stick": {kind: Leave}, "swell": {kind: Leave}, "crisp": {kind: Leave},
	"finish": {kind: Leave}, "give": {kind: Leave}, "ripen": {kind: Leave}, "plump": {kind: Leave},

	"beat": {kind: Work}, "knead": {kind: Work}, "whisk": {kind: Work}, "whip": {kind: Work}, "cream": {kind: Work}, "mix": {kind: Work}, "stir": {kind: Work}, "rub": {kind: Work},
	"roll": {kind: Work}, "blend": {kind: Work}, "blitz": {kind: Work}, "whizz": {kind: Work}, "process": {kind: Work}, "mash": {kind: Work}, "chop": {kind: Work}, "slice": {kind: Work},
	"cut": {kind: Work}, "peel": {kind: Work}, "grate": {kind: Work}, "fold": {kind: Work}, "toss": {kind: Work}, "shake": {kind: Work}, "work": {kind: Work}, "pound": {kind: Work},
	"churn": {kind: Work}, "massage": {kind: Work}, "wash": {kind: Work}, "rinse": {kind: Work}, "scrub": {kind: Work}, "grind": {kind: Work}, "pulse": {kind: Work}, "purée": {kind: Work},
	"turn": {kind: Work}, "skim": {kind: Work}, "baste": {kind: Work},
}

// hot tells whether a verb is cooking by itself, also behind "leave to".
func (v verb) hot() bool { return v.device != NoDevice && !v.pan }

// plain are the verbs that mean something only with a time or a place.
var plainVerbs = set("leave let allow put place slide return transfer pop keep lay cover weight stick set give finish crisp")

// adjectives are verbs whose bare form is as often the state a thing is in:
// "until crisp and brown".
var adjectives = set("brown set dry crisp cool warm")

// participles are the forms that say what was done before.
var participles = forms()

// gerunds lead from "simmering" to simmer.
var gerunds = map[string]string{}

func forms() map[string]bool {
	out := set("left kept frozen set hung let put beaten cut risen stuck laid")
	for v := range verbs {
		stem, e := strings.CutSuffix(v, "e")
		twice := v + v[len(v)-1:]
		switch {
		case e:
			out[v+"d"] = true
			gerunds[stem+"ing"] = v
		default:
			out[v+"ed"], out[twice+"ed"] = true, true
			gerunds[v+"ing"], gerunds[twice+"ing"] = v, v
			if y, is := strings.CutSuffix(v, "y"); is {
				out[y+"ied"] = true
			}
		}
	}
	for v := range adjectives {
		delete(out, v)
	}
	return out
}
