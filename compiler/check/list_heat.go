package check

var heatRules = []*Rule{}
