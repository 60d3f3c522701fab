package check

var styleRules = []*Rule{}
