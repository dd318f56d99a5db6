package sheet

import (
	"fmt"
	"strings"
)

// Head is what stands on every page of every sheet of one harness.
type Head struct {
	Harness  string
	Title    string // as the author titled it, else the name
	File     string
	Hash     string // SHA-256 of all its files, in hexadecimal
	Practice string
	Date     string // as asked for; "" prints none
	Errors   int    // findings that say it is unsafe or cannot work
	Open     int    // safety rules that could not be judged
}

// ForBuild reports whether the harness may be built from its papers.
func (h Head) ForBuild() bool { return h.Errors == 0 && h.Open == 0 }

// Verdict is the line that heads every page: what stands against building, or ""
// where nothing does. No line says that a harness is safe.
func (h Head) Verdict() string {
	if h.ForBuild() {
		return ""
	}
	var counts []string
	if h.Errors > 0 {
		counts = append(counts, plural(h.Errors, "error"))
	}
	if h.Open > 0 {
		counts = append(counts, fmt.Sprintf("%d not judged", h.Open))
	}
	return "NOT FOR BUILD: " + strings.Join(counts, ", ")
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Defer is what every sheet says.
const Defer = "Check against the parts' makers' data and the rules that bind this machine. This paper advises; it certifies nothing."

// Cautions are printed on every sheet.
var Cautions = []string{
	"Disconnect the battery's negative first and connect it last.",
	"Battery gas and fuel vapour burn: no sparks or flames, open the covers and let it air.",
	"A short across a battery burns wire and flesh: no jewellery, insulated tools, eye protection.",
	"The machine's maker, local codes and licensed practice come before this paper.",
}
