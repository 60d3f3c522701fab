//go:build !unix

package check_test

import "time"

var began = time.Now()

// cpuTime is wall time where nothing better is to be had.
func cpuTime() time.Duration { return time.Since(began) }
