//go:build !unix

package parse_test

import "time"

var began = time.Now()

// cpu is wall time where nothing better is to be had.
func cpu() time.Duration { return time.Since(began) }
