package lsp

import "time"

// EarlyAfter has servers that are started from now on tell early what they can
// where checks take so long.
func EarlyAfter(d time.Duration) { earlyAfter = d }
