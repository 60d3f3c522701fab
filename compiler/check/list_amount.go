package check

import "slices"

var amountRules = slices.Concat(readingRules, demandRules, judgedAmounts)
