package check

var notationRules = []*Rule{}
