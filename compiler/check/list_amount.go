package check

var amountRules = []*Rule{}
