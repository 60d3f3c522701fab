package check

var allergenRules = []*Rule{}
