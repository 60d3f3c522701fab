package check

var styleRules = []*Rule{
	staleAllow,
}
