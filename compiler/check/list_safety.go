package check

var safetyRules = []*Rule{}
