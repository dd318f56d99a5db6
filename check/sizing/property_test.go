package sizing_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/rules"
	"hame/check/sizing"
	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/tables"
)

// seeds is how many harnesses are made: HAME_TRUST=3000 asks for a tenth of it.
func seeds() uint64 {
	if n, err := strconv.ParseUint(os.Getenv("HAME_TRUST"), 10, 32); err == nil && n >= 10 {
		return n / 10
	}
	return 20
}

// TestYard takes the gauges of wires out of sound harnesses. Sized anew, nothing
// grave is found that was not there, every wire has a size, and a size less of any
// one wire is found fault with.
func TestYard(t *testing.T) {
	const big = 45 // wires; a few of the larger ones are enough
	for seed := range seeds() {
		h := yard.Make(seed)
		if len(h.Wires) > big && seed%10 > 0 {
			continue
		}
		r := rand.New(rand.NewPCG(seed, 7))
		share := 20 + r.IntN(81)
		for _, w := range h.Wires {
			if r.IntN(100) < share {
				w.Gauge = "auto"
			}
		}
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			sizesHold(t, h.Print().Source)
		})
	}
}

func sizesHold(t *testing.T, text string) {
	r := sized(t, text)
	for _, w := range r.Wires {
		if !w.Sized {
			t.Errorf("%s has no size: [%s] %s", w.Name, w.Rule, w.Reason)
		}
	}
	if r.Ended {
		t.Error("the work was cut short")
	}
	run := check.File(source.New("yard.hame", r.Text()), check.Options{})
	for _, f := range grave(run) {
		t.Errorf("%s: %s: %s", f.Severity, f.Rule, f.Message)
	}
	for i := range r.Wires {
		least(t, r, run, i)
	}
}

// least holds a wire to be the thinnest that will do: with a size less in the
// text the check finds what the result says, and does not find it without.
func least(t *testing.T, r *sizing.Result, run *check.Run, i int) {
	w := r.Wires[i]
	list := rules.Usual(r.AWG)
	if w.Size == list[0] {
		return
	}
	text, smaller := lessOne(r, i, list)
	if w.Smaller == nil {
		t.Errorf("%s is %s, and nothing speaks against %s", w.Name, w.Size, smaller)
		return
	}
	if w.Smaller.Size != smaller {
		t.Errorf("%s is %s, and %s was tried as the next smaller", w.Name, w.Size, w.Smaller.Size)
	}
	f := w.Smaller.Finding
	if !finds(check.File(source.New("yard.hame", text), check.Options{}), f.Rule, w.Smaller.Says, f.Severity) {
		t.Errorf("%s of %s is said to be found fault with, and is not: %s", w.Name, smaller, w.Smaller.Says)
	}
	if finds(run, f.Rule, about(w.Smaller.Says, f), f.Severity) {
		t.Errorf("%s of %s is found fault with all the same: %s", w.Name, w.Size, w.Smaller.Says)
	}
}

// lessOne is the sized text with one wire a size thinner.
func lessOne(r *sizing.Result, i int, list []tables.Size) (string, tables.Size) {
	at := 0
	for k, s := range list {
		if s == r.Wires[i].Size {
			at = k
		}
	}
	other := *r
	other.Wires = append([]sizing.Wire{}, r.Wires...)
	other.Wires[i].Size = list[at-1]
	return other.Text(), list[at-1]
}

var loses = regexp.MustCompile("`[^`]+` loses ")

// about is what a saying is about: of a drop the load, else its subject.
func about(says string, f finding.Finding) string {
	if load := loses.FindString(says); f.Rule == "wire/drop" && load != "" {
		return load
	}
	return "`" + f.Subject + "`"
}

// finds reports whether a rule says a thing, at a severity or above.
func finds(run *check.Run, rule, says string, s finding.Severity) bool {
	for _, f := range run.Findings {
		if f.Rule == rule && f.Severity >= s && f.Allowed == nil && strings.Contains(f.Message+"\n"+strings.Join(f.Figures, "\n"), says) {
			return true
		}
	}
	return false
}
