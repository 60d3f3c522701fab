package page

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"tamis/render/fonts"
)

// What hangs is read from where it hangs. Reading is at full speed from an x-height
// of about 0.2 degrees (Legge and Bigelow 2011, Journal of Vision 11(5):8, as seen in
// the abstract), and Clear Print of the RNIB asks for an x-height of 2 mm (as seen,
// quoted). How far an arm and a step are: common practice, no source.
func TestSizesSuitTheDistance(t *testing.T) {
	xHeight := func(f fonts.Face, size float64) float64 { // in mm
		face, err := sfnt.Parse(f.Data())
		require.NoError(t, err)
		m, err := face.Metrics(nil, fixed.I(1000), font.HintingNone)
		require.NoError(t, err)
		return float64(m.XHeight) / 64 / 1000 * size * 25.4 / 72
	}
	fluent := func(mm float64) float64 { return 2 * mm * math.Tan(0.1*math.Pi/180) }
	sz := sizesOf(Options{})
	leaf := (&typesetter{opt: Options{Paper: A4}}).leafSizes(leafScales[len(leafScales)-1]) // in the hand
	for what, x := range map[string]struct{ have, need float64 }{
		"wall":           {xHeight(fonts.Sans, sz.body), max(fluent(600), 2.0)},
		"heat of a step": {xHeight(fonts.SansBold, sz.look), max(fluent(600), 2.0)},
		"sentence":       {xHeight(fonts.Serif, sz.step), max(fluent(500), 2.0)},
		"table":          {xHeight(fonts.Sans, sz.body), max(fluent(500), 2.0)},
		"chart":          {xHeight(fonts.Sans, leastOnChart), fluent(500)},
		"leaf":           {xHeight(fonts.Serif, leaf.step), fluent(400)},
		"end of a leaf":  {xHeight(fonts.Sans, leaf.small), fluent(400)},
		"second line":    {xHeight(fonts.Sans, sz.small), fluent(400)},
	} {
		require.GreaterOrEqual(t, x.have, x.need, what)
	}
}
