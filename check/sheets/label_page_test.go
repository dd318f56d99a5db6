package sheets

import (
	"strings"
	"testing"
)

// TestLabelsWhole: words that are made smaller until they fit are not cut then,
// whatever their length.
func TestLabelsWhole(t *testing.T) {
	for n := 1; n < 40; n++ {
		text := "to " + strings.Repeat("roof_beacon.p", 3)[:n]
		got := fitted(0, 0, text, thenSize, false, 25)
		if got.SizeMM > leastSize+0.01 && got.Words != text {
			t.Errorf("%q is cut to %q at %g mm", text, got.Words, got.SizeMM)
		}
	}
}
