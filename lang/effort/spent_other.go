//go:build !unix && !windows

package effort

import "time"

// Spent is the processor time this process has used; false where the system
// does not say.
func Spent() (time.Duration, bool) { return 0, false }
