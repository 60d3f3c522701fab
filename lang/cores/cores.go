// Package cores shares work out over the cores of the machine.
package cores

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls f for 0 to n-1, several at once, and waits for all of them. What f
// does for one number must not depend on another.
func Each(n int, f func(i int)) {
	With(n, func() struct{} { return struct{}{} }, func(_ struct{}, i int) { f(i) })
}

// With is Each where every worker has something of its own, made by begin: a
// cache, say, that only one may use at a time.
func With[T any](n int, begin func() T, f func(own T, i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			own := begin()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				f(own, i)
			}
		})
	}
	wg.Wait()
}
