package check

var planRules = []*Rule{}
