package check

var menuRules = []*Rule{}
