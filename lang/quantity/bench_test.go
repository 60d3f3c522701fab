package quantity

import "testing"

// ReadAmount is called on every gather line, and in prose at every word.
func BenchmarkReadAmount(b *testing.B) {
	for _, c := range []struct{ name, text string }{
		{"plain", "250 g flour, sifted"},
		{"count", "3 onions, sliced"},
		{"mixed", "1 1/2 cups plain flour"},
		{"clove", "6 cloves garlic, crushed"},
		{"range", "2 to 3 tbsp olive oil"},
		{"pair", "900 g (2 lb) stewing beef"},
		{"packages", "2 x 400 g tins tomatoes"},
		{"head", "120 g per cover plus 200 g butter"},
		{"none", "flaky salt"},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				ReadAmount(c.text, Options{})
			}
		})
	}
	b.Run("prose word", func(b *testing.B) {
		for b.Loop() {
			ReadAmount("add the stock and simmer until thick", Options{Prose: true})
		}
	})
	b.Run("prose amount", func(b *testing.B) {
		for b.Loop() {
			ReadAmount("200 ml of the stock and simmer", Options{Prose: true})
		}
	})
}

func BenchmarkReadSpan(b *testing.B) {
	for b.Loop() {
		ReadSpan("35 to 40 min", Options{})
	}
}

func BenchmarkPrint(b *testing.B) {
	for name, st := range map[string]Style{"metric": {}, "US": {System: US}} {
		q := Millilitres(Frac(6625, 11))
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				q.Print(st)
			}
		})
	}
}
