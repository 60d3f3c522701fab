package check

var nameRules = []*Rule{}
